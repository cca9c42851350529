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
        let (run, rest) = list.split_at(length_of_run(list.len())?);
        list = rest;
        Some(run)
    })
}

/// The same, to take the rows' content out.
pub(crate) fn runs_mut<T>(mut list: &mut [T]) -> impl Iterator<Item = &mut [T]> {
    std::iter::from_fn(move || {
        let length = length_of_run(list.len())?;
        let (run, rest) = std::mem::take(&mut list).split_at_mut(length);
        list = rest;
        Some(run)
    })
}

/// Cuts a list of what is looked for into runs of few lengths as [`runs`] does, but the last one is filled up by looking for its
/// last again: one statement, where else there would be up to eight.
pub(crate) fn sought<T: Clone>(list: &[T]) -> impl Iterator<Item = Vec<T>> {
    list.chunks(MOST_ROWS).map(|chunk| {
        let mut run = chunk.to_vec();
        if let Some(last) = chunk.last() {
            run.resize(chunk.len().next_power_of_two().min(MOST_ROWS), last.clone());
        }
        run
    })
}

/// Length of the next run; `None`: nothing is left.
pub(crate) fn length_of_run(left: usize) -> Option<usize> {
    if left >= MOST_ROWS { Some(MOST_ROWS) } else { left.checked_ilog2().map(|log| 1 << log) }
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
        assert_eq!(
            runs_mut(&mut list.clone()).map(|run| run.to_vec()).collect::<Vec<_>>(),
            runs(&list).collect::<Vec<_>>()
        );
        assert_eq!(runs::<u8>(&[]).count(), 0);
    }

    #[test]
    fn what_is_sought_is_all_sought() {
        for count in [1, 3, 13, 130, MOST_ROWS, MOST_ROWS + 5] {
            let list: Vec<usize> = (0..count).collect();
            let mut all: Vec<usize> = sought(&list).flatten().collect();
            all.dedup();
            assert_eq!(all, list);
            let rest = count % MOST_ROWS;
            let last = if rest == 0 { MOST_ROWS } else { rest.next_power_of_two().min(MOST_ROWS) };
            assert_eq!(sought(&list).last().map(|run| run.len()), Some(last));
        }
        assert_eq!(sought::<u8>(&[]).count(), 0);
    }
}
