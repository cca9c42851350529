//! The pack's own type: regular and bold, carried in the program.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::Font;

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let regular: &[u8] = include_bytes!("../fonts/NotoSans-Regular.ttf");
    let bold: &[u8] = include_bytes!("../fonts/NotoSans-Bold.ttf");
    [regular, bold].into_iter().flat_map(|data| Font::iter(Bytes::new(data))).collect()
});

/// All of them.
pub fn all() -> &'static [Font] {
    &FONTS
}

/// Whether every weight has a shape for a character.
pub fn covers(c: char) -> bool {
    FONTS.iter().all(|font| font.info().coverage.contains(c as u32))
}
