//! Writes the invented district's record, two years of it, into a folder, with the district file and roads beside it:
//! `cargo run -p journal --example invented_record -- FOLDER`.

use std::error::Error;
use std::fs;
use std::path::PathBuf;

use journal::Journal;
use journal::store::Location;
use model::record::event::Event;

#[tokio::main]
async fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("name the folder to write into")?);
    fs::create_dir_all(&folder)?;
    fs::copy(testkit::in_repository("demo/week.toml"), folder.join("district.toml"))?;
    for file in ["roads.geojson", "records.csv"] {
        fs::copy(testkit::in_repository("demo").join(file), folder.join(file))?;
    }
    let events: Vec<Event> =
        testkit::invented_record().into_iter().map(serde_json::from_value).collect::<Result<_, _>>()?;
    let last = events.iter().map(Event::happened_at).max().ok_or("no events")?;
    let journal = Journal::open(&Location::in_folder(&folder)).await?;
    for batch in events.chunks(2_000) {
        journal.append(batch.to_vec(), last).await?;
    }
    println!("{}: {} invented events", folder.display(), events.len());
    journal.close().await;
    Ok(())
}
