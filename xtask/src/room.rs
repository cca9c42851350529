//! Room on the disk: the builds of many commits lie in one folder, and cargo throws none away.

use std::fs;
use std::path::Path;

use crate::tools::{Outcome, cargo, run, target_folder};

/// Above this the folder of builds holds what no commit needs any more: one commit's builds take about 8 GB.
const MOST_BYTES: u64 = 20_000_000_000;

/// Throws away builds when too many lie there: first those of the repository's own crates, then all.
pub fn make_room() -> Outcome {
    let builds = target_folder().join("debug");
    // left by builds started by hand: the chores build without it
    remove(&builds.join("incremental"))?;
    if bytes_in(&builds) <= MOST_BYTES {
        return Ok(());
    }
    run("throwing away old builds", &mut cargo(&["clean", "--quiet", "--workspace"]))?;
    if bytes_in(&builds) > MOST_BYTES { remove(&builds) } else { Ok(()) }
}

fn remove(folder: &Path) -> Outcome {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(format!("{}: {error}", folder.display())),
        _ => Ok(()),
    }
}

/// What the files of a folder take, without those that another program removes meanwhile.
fn bytes_in(folder: &Path) -> u64 {
    let Ok(entries) = fs::read_dir(folder) else { return 0 };
    let sizes = entries.flatten().map(|entry| match entry.metadata() {
        Ok(found) if found.is_dir() => bytes_in(&entry.path()),
        Ok(found) => found.len(),
        Err(_) => 0,
    });
    sizes.sum()
}

#[cfg(test)]
mod tests {
    use super::{bytes_in, remove};

    #[test]
    fn a_folder_is_measured_whole_and_removed_once() {
        let folder = std::env::temp_dir().join(format!("lengthsman-room-{}", std::process::id()));
        std::fs::create_dir_all(folder.join("inner")).unwrap();
        std::fs::write(folder.join("a"), [0; 10]).unwrap();
        std::fs::write(folder.join("inner").join("b"), [0; 5]).unwrap();
        assert_eq!(bytes_in(&folder), 15);
        remove(&folder).unwrap();
        assert_eq!(bytes_in(&folder), 0);
        remove(&folder).unwrap();
    }
}
