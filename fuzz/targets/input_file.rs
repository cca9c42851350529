//! The values of one calculation in a file, as TOML and as JSON.
#![no_main]

use common::{Folder, said_in_words};
use exchange::input_file::read_input_file;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let folder = Folder::new();
    for name in ["values.toml", "values.json"] {
        if let Err(problem) = read_input_file::<serde_json::Value>(&folder.file(name, bytes)) {
            said_in_words(&[*problem]);
        }
    }
});
