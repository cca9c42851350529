//! The few pieces of the protobuf encoding (protobuf.dev, encoding) that a made map file takes. The reader's library only reads.

/// Signed numbers, each as its difference from the one before, zigzag-encoded.
pub fn deltas(values: impl Iterator<Item = i64>) -> Vec<u8> {
    let (mut out, mut last) = (Vec::new(), 0);
    for value in values {
        let step = value - last;
        last = value;
        varint(&mut out, ((step << 1) ^ (step >> 63)).cast_unsigned());
    }
    out
}

/// A field of bytes with its number and length.
pub fn bytes_field(out: &mut Vec<u8>, field: u64, bytes: &[u8]) {
    varint(out, field << 3 | 2);
    varint(out, bytes.len() as u64);
    out.extend_from_slice(bytes);
}

/// A number in groups of seven bits, the least first.
pub fn varint(out: &mut Vec<u8>, mut value: u64) {
    while value >= 0x80 {
        out.push((value & 0x7F) as u8 | 0x80);
        value >>= 7;
    }
    out.push(value as u8);
}
