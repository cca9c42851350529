//! SQL for many rows at once.

/// Rows in one statement at most: few enough for every database's count of places, enough that statements hardly count.
pub(crate) const MOST_ROWS: usize = 200;

/// `($1, $2), ($3, $4)`: places for so many rows of so many columns.
pub(crate) fn places(rows: usize, columns: usize) -> String {
    let mut text = String::with_capacity(rows * columns * 5);
    for row in 0..rows {
        text.push_str(if row == 0 { "(" } else { ", (" });
        for column in 0..columns {
            if column > 0 {
                text.push_str(", ");
            }
            text.push('$');
            text.push_str(&(row * columns + column + 1).to_string());
        }
        text.push(')');
    }
    text
}

/// Cuts a list into runs whose lengths are full ones and then powers of two, so that few different statements are made and the
/// database can keep them ready.
pub(crate) fn runs<T>(mut list: &[T]) -> impl Iterator<Item = &[T]> {
    std::iter::from_fn(move || {
        if list.is_empty() {
            return None;
        }
        let length = if list.len() >= MOST_ROWS { MOST_ROWS } else { 1 << list.len().ilog2() };
        let (run, rest) = list.split_at(length);
        list = rest;
        Some(run)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_count_on_through_the_rows() {
        assert_eq!(places(2, 3), "($1, $2, $3), ($4, $5, $6)");
    }

    #[test]
    fn runs_are_whole_and_of_few_lengths() {
        let list: Vec<usize> = (0..MOST_ROWS * 2 + 13).collect();
        let lengths: Vec<usize> = runs(&list).map(<[usize]>::len).collect();
        assert_eq!(lengths, [MOST_ROWS, MOST_ROWS, 8, 4, 1]);
        assert_eq!(runs(&list).flatten().copied().collect::<Vec<_>>(), list);
        assert_eq!(runs::<u8>(&[]).count(), 0);
    }
}
