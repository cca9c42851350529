//! The pack's own type: Noto Sans and, for Arabic letters, Noto Sans Arabic; regular and bold, carried in the program.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::layout::{Abs, Em};
use typst::text::{Font, FontInstance, FontVariant, FontVariations};

use words::direction::is_right_to_left;

/// Regular and bold of the first family, then of the Arabic one.
static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let files: [&[u8]; 4] = [
        include_bytes!("../fonts/NotoSans-Regular.ttf"),
        include_bytes!("../fonts/NotoSans-Bold.ttf"),
        include_bytes!("../fonts/NotoSansArabic-Regular.ttf"),
        include_bytes!("../fonts/NotoSansArabic-Bold.ttf"),
    ];
    files.into_iter().flat_map(|data| Font::iter(Bytes::new(data))).collect()
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

/// Whether every weight has a shape for a character. Of the Arabic family only the letters themselves count: its ready-made
/// forms look like them and are others.
pub fn covers(c: char) -> bool {
    family(c).all(|index| FONTS.get(index).is_some_and(|font| font.info().coverage.contains(c as u32)))
}

/// Whether the Arabic family has a shape for a character, letter or not.
pub fn arabic_covers(c: char) -> bool {
    FONTS[2..].iter().all(|font| font.info().coverage.contains(c as u32))
}

/// How far a character moves the pen, in parts of the type size; half of it for what the type lacks. An Arabic letter is as
/// wide as it is alone, which it rarely is joined to others.
pub fn advance(c: char, bold: bool) -> f64 {
    let font = family(c).nth(usize::from(bold)).and_then(|index| MEASURES.get(index));
    let glyph = font.and_then(|font| Some((font, font.ttf().glyph_index(c)?.0)));
    glyph.and_then(|(font, glyph)| font.x_advance(glyph)).map_or(0.5, Em::get)
}

/// The indexes of the family that has a character.
fn family(c: char) -> std::ops::Range<usize> {
    if is_right_to_left(c) { 2..4 } else { 0..2 }
}
