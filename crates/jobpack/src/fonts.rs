//! The pack's own type: regular and bold, carried in the program.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::layout::{Abs, Em};
use typst::text::{Font, FontInstance, FontVariant, FontVariations};

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let regular: &[u8] = include_bytes!("../fonts/NotoSans-Regular.ttf");
    let bold: &[u8] = include_bytes!("../fonts/NotoSans-Bold.ttf");
    [regular, bold].into_iter().flat_map(|data| Font::iter(Bytes::new(data))).collect()
});

/// For measuring; the size asked for is of no account, since no weight here changes with it.
static MEASURES: LazyLock<Vec<FontInstance>> = LazyLock::new(|| {
    let measure =
        |font: &Font| font.clone().instantiate(FontVariant::default(), Abs::pt(10.0), &FontVariations::default());
    FONTS.iter().map(measure).collect()
});

/// All of them.
pub fn all() -> &'static [Font] {
    &FONTS
}

/// Whether every weight has a shape for a character.
pub fn covers(c: char) -> bool {
    FONTS.iter().all(|font| font.info().coverage.contains(c as u32))
}

/// How far a character moves the pen, in parts of the type size; half of it for what the type lacks.
pub fn advance(c: char, bold: bool) -> f64 {
    let font = &MEASURES[usize::from(bold).min(MEASURES.len() - 1)];
    let glyph = font.ttf().glyph_index(c).map(|glyph| glyph.0);
    glyph.and_then(|glyph| font.x_advance(glyph)).map_or(0.5, Em::get)
}
