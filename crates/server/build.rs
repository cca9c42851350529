//! Looks whether the web app was built anew: a file that was not there before would not be seen otherwise.

fn main() {
    println!("cargo::rerun-if-changed=../../web/dist");
}
