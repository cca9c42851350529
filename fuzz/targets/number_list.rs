//! Lists of numbers: particles measured one by one, sieve fractions of a flakiness test.
#![no_main]

use std::cell::OnceCell;

use common::{Folder, said_in_words};
use exchange::number_list::{NumberColumn, read_number_list};
use libfuzzer_sys::fuzz_target;

thread_local! { static FOLDER: OnceCell<Folder> = const { OnceCell::new() }; }

fuzz_target!(|bytes: &[u8]| {
    FOLDER.with(|folder| {
        let path = folder.get_or_init(Folder::new).file("list.csv", bytes);
        let units = &[("mm", 1.0), ("in", 25.4)];
        let columns = [NumberColumn { name: "tested", units }, NumberColumn { name: "passing", units }];
        match read_number_list(&path, columns) {
            Ok(list) => {
                said_in_words(&list.problems);
                assert!(list.rows.iter().flatten().all(|number| number.is_finite()));
            }
            Err(problems) => {
                assert!(!problems.is_empty());
                said_in_words(&problems);
            }
        }
    });
});
