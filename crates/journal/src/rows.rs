//! SQL for many rows at once.

use std::borrow::Cow;

use crate::store::Backend;

/// Rows in one statement at most: few enough for every database's count of places, enough that statements hardly count.
pub(crate) const MOST_ROWS: usize = 200;

/// `($1, $2), ($3, $4)`, or with question marks: places for so many rows of so many columns.
///
/// `SQLite` keeps a list of the names of numbered places that is gone through for each of them, so there they have none.
pub(crate) fn places(backend: Backend, rows: usize, columns: usize) -> String {
    let mut text = String::with_capacity(rows * columns * 5);
    for row in 0..rows {
        text.push_str(if row == 0 { "(" } else { ", (" });
        for column in 0..columns {
            if column > 0 {
                text.push_str(", ");
            }
            text.push_str(&place(backend, row * columns + column + 1));
        }
        text.push(')');
    }
    text
}

/// A single place, the one of that number from 1; places before it are all there.
pub(crate) fn place(backend: Backend, number: usize) -> Cow<'static, str> {
    match backend {
        Backend::Sqlite => Cow::Borrowed("?"),
        Backend::Postgres => Cow::Owned(format!("${number}")),
    }
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
        assert_eq!(places(Backend::Postgres, 2, 3), "($1, $2, $3), ($4, $5, $6)");
        assert_eq!(places(Backend::Sqlite, 1, 2), "(?, ?)");
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
