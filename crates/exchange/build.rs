//! Rebuilds the embedded rule library when a file is added to it or taken away.

fn main() {
    println!("cargo::rerun-if-changed=../../rules");
}
