//! The nearest known word to a misspelt one.

/// The known word nearest to `word`, if any is near enough to be meant.
pub fn nearest<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    let word = word.to_lowercase();
    known
        .into_iter()
        .map(|candidate| (strsim::jaro_winkler(&word, &candidate.to_lowercase()), candidate))
        .filter(|(likeness, _)| *likeness > 0.8)
        // The first of equals wins, so that the answer does not depend on how ties are broken.
        .fold(None, |best: Option<(f64, &str)>, next| match best {
            Some(best) if best.0 >= next.0 => Some(best),
            _ => Some(next),
        })
        .map(|(_, candidate)| candidate)
}

/// `did you mean "x"? known: a, b, x` or only the known words.
pub fn hint(word: &str, known: &[&str]) -> String {
    let list = known.join(", ");
    match nearest(word, known.iter().copied()) {
        Some(candidate) => format!("did you mean `{candidate}`? known: {list}"),
        None => format!("known: {list}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_near_word_is_found_and_a_far_one_is_not() {
        assert_eq!(nearest("paylaod_kg", ["name", "payload_kg"]), Some("payload_kg"));
        assert_eq!(nearest("Depth", ["depth", "width"]), Some("depth"));
        assert_eq!(nearest("zzz", ["depth", "width"]), None);
    }
}
