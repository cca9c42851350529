//! Photos in pieces, named by what they are, shown without what the camera wrote.

use axum::body::Body;
use axum::http::StatusCode;
use journal::chain::{hexadecimal, sha256};

use serde_json::json;

use crate::client::{Answer, Client, House, number, report};

/// A JPEG file of the least that programs take for one, with a place (EXIF) and a remark in it.
fn picture() -> Vec<u8> {
    let segment = |marker: u8, content: &[u8]| {
        let length = u16::try_from(content.len() + 2).unwrap().to_be_bytes();
        [&[0xff, marker], &length[..], content].concat()
    };
    let mut bytes = vec![0xff, 0xd8];
    bytes.extend(segment(0xe0, b"JFIF\0\x01\x01\0\0\x01\0\x01\0\0"));
    bytes.extend(segment(0xe1, b"Exif\0\0MM\0*\0\0\0\x08GPS 47.05 N 7.05 E of Ada Holm"));
    bytes.extend(segment(0xfe, b"remark by Ada Holm"));
    bytes.extend(segment(0xdb, &[0; 65]));
    bytes.extend(segment(0xda, &[1, 1, 0, 0, 63, 0]));
    bytes.extend((0..3_000_u32).map(|index| (index % 251) as u8));
    bytes.extend([0xff, 0xd9]);
    bytes
}

/// The same with a place in it: a GPS directory of Exif 2.3 (tags 1 to 4) in a TIFF 6.0 file, most significant byte first.
fn picture_taken_at(lat: [(u32, u32); 3], north_south: u8, lon: [(u32, u32); 3], east_west: u8) -> Vec<u8> {
    let entry = |tag: u16, kind: u16, count: u32, value: [u8; 4]| {
        [&tag.to_be_bytes()[..], &kind.to_be_bytes(), &count.to_be_bytes(), &value].concat()
    };
    let at = |offset: u32| offset.to_be_bytes();
    let fractions =
        |parts: [(u32, u32); 3]| parts.map(|(num, denom)| [num.to_be_bytes(), denom.to_be_bytes()].concat());
    let mut tiff = b"MM\0*\0\0\0\x08".to_vec();
    // the first directory, of one entry: where that of the place is
    tiff.extend([0, 1]);
    tiff.extend(entry(0x8825, 4, 1, at(26)));
    tiff.extend(at(0));
    tiff.extend([0, 4]);
    tiff.extend(entry(1, 2, 2, [north_south, 0, 0, 0]));
    tiff.extend(entry(2, 5, 3, at(80)));
    tiff.extend(entry(3, 2, 2, [east_west, 0, 0, 0]));
    tiff.extend(entry(4, 5, 3, at(104)));
    tiff.extend(at(0));
    assert_eq!(tiff.len(), 80);
    tiff.extend(fractions(lat).concat());
    tiff.extend(fractions(lon).concat());
    let content = [&b"Exif\0\0"[..], &tiff].concat();
    let length = u16::try_from(content.len() + 2).unwrap().to_be_bytes();
    let plain = picture();
    [&plain[..2], &[0xff, 0xe1], &length, &content, &plain[2..]].concat()
}

async fn put(house: &House, client: &Client, name: &str, range: Option<&str>, bytes: &[u8]) -> Answer {
    let mut request = client.request("PUT", &format!("/api/photos/{name}")).header("content-type", "image/jpeg");
    if let Some(range) = range {
        request = request.header("content-range", range);
    }
    house.send(request.body(Body::from(bytes.to_vec())).unwrap()).await
}

#[tokio::test]
async fn pieces_make_the_photo_and_its_place_stays_with_us() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let photo = picture();
    let whole = photo.len();
    let name = hexadecimal(&sha256(&photo));
    let path = format!("/api/photos/{name}");
    house.get(&mara, &path).await.is_problem(404);
    let first = put(&house, &mara, &name, Some(&format!("bytes 0-999/{whole}")), &photo[..1000]).await;
    assert_eq!(first.headers["upload-offset"], "1000");
    let gap = put(&house, &mara, &name, Some(&format!("bytes 2000-2999/{whole}")), &photo[2000..3000]).await;
    gap.is_problem(409);
    assert_eq!(gap.headers["upload-offset"], "1000");
    let head = house.send(mara.request("HEAD", &path).body(Body::empty()).unwrap()).await;
    assert_eq!((head.status, head.headers["upload-offset"].to_str().unwrap()), (StatusCode::NO_CONTENT, "1000"));
    // begins before what has come, as after a broken connection
    let rest = put(&house, &mara, &name, Some(&format!("bytes 500-{}/{whole}", whole - 1)), &photo[500..]).await;
    assert_eq!(rest.value()["complete"], true);
    let again = put(&house, &mara, &name, None, &photo).await;
    assert_eq!(again.value()["complete"], true);

    let shown = house.get(&mara, &path).await;
    assert_eq!(shown.headers["content-type"], "image/jpeg");
    let has = |bytes: &[u8], text: &[u8]| bytes.windows(text.len()).any(|window| window == text);
    assert!(has(&photo, b"Ada Holm") && !has(&shown.bytes, b"Ada Holm") && !has(&shown.bytes, b"GPS"));
    assert!(has(&shown.bytes, &[0xff, 0xda]) && shown.bytes.len() > 3000, "the picture itself is there");
    let kept = std::fs::read(house.folder.path().join("photos").join(&name[..2]).join(&name)).unwrap();
    assert_eq!(kept, photo, "the record keeps what was sent");
}

/// As after a restart between the last piece and its row, or of a time before photos had rows.
#[tokio::test]
async fn a_whole_file_without_a_row_has_one_once_it_is_asked_for() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let photo = picture_taken_at([(47, 1), (30, 1), (0, 1)], b'N', [(8, 1), (15, 1), (0, 1)], b'E');
    let digest = sha256(&photo);
    let name = hexadecimal(&digest);
    let folder = house.folder.path().join("photos").join(&name[..2]);
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(&name), &photo).unwrap();
    assert!(house.journal.photos(&[digest]).await.unwrap().is_empty());
    for _ in 0..2 {
        let path = format!("/api/photos/{name}");
        let head = house.send(mara.request("HEAD", &path).body(Body::empty()).unwrap()).await;
        assert_eq!(head.headers["upload-offset"].to_str().unwrap(), photo.len().to_string());
        let rows = house.journal.photos(&[digest]).await.unwrap();
        let place = rows[0].place.unwrap();
        assert_eq!((rows.len(), rows[0].bytes, place.lon, place.lat), (1, photo.len() as u64, 8.25, 47.5));
    }
}

#[tokio::test]
async fn what_is_no_photo_of_that_name_is_not_kept() {
    let house = House::new().await;
    let mara = house.set_up().await;
    let photo = picture();
    let wrong = hexadecimal(&sha256(b"another"));
    put(&house, &mara, &wrong, None, &photo).await.is_problem(422);
    house.get(&mara, &format!("/api/photos/{wrong}")).await.is_problem(404);
    put(&house, &mara, "..%2f..%2fetc%2fpasswd", None, &photo).await.is_problem(400);
    put(&house, &mara, &"F".repeat(64), None, &photo).await.is_problem(400);
    let name = hexadecimal(&sha256(&photo));
    for range in ["bytes 0-9/5", "bytes 5-1/10", "bytes 0-1/99999999999999999999", "lines 0-1/2", "bytes 0-9/100"] {
        put(&house, &mara, &name, Some(range), &photo).await.is_problem(400);
    }
    let large = format!("bytes 0-{}/50000000", photo.len() - 1);
    put(&house, &mara, &name, Some(&large), &photo).await.is_problem(413);
    let request = mara.request("PUT", &format!("/api/photos/{name}")).header("content-type", "text/html");
    house.send(request.body(Body::from("<script>")).unwrap()).await.is_problem(415);
    let text = b"no picture at all";
    let name = hexadecimal(&sha256(text));
    put(&house, &mara, &name, None, text).await;
    house.get(&mara, &format!("/api/photos/{name}")).await.is_problem(422);
}

#[tokio::test]
async fn where_a_photo_was_taken_is_known_to_those_who_are_signed_in_alone() {
    let house = House::new().await;
    let mara = house.set_up().await;
    // 47 degrees 3 minutes 18.5 seconds, 8 degrees 1.25 minutes: by hand
    let minutes = picture_taken_at([(47, 1), (3, 1), (185, 10)], b'N', [(8, 1), (125, 100), (0, 0)], b'W');
    let south = picture_taken_at([(18, 1), (0, 1), (0, 1)], b'S', [(81, 1), (30, 1), (0, 1)], b'E');
    let cases = [
        (minutes, Some((-(8.0 + 1.25 / 60.0), 47.0 + 3.0 / 60.0 + 18.5 / 3600.0))),
        (south, Some((81.5, -18.0))),
        (picture_taken_at([(0, 1); 3], b'N', [(0, 1); 3], b'E'), None),
        (picture_taken_at([(95, 1), (0, 1), (0, 1)], b'N', [(8, 1), (0, 1), (0, 1)], b'E'), None),
        (picture_taken_at([(47, 0), (0, 1), (0, 1)], b'N', [(8, 1), (0, 1), (0, 1)], b'E'), None),
        (picture_taken_at([(47, 1), (0, 1), (0, 1)], b'?', [(8, 1), (0, 1), (0, 1)], b'E'), None),
        (picture(), None),
    ];
    let (hole, mut expected) = (number(1_000_001), Vec::new());
    let mut events = vec![report(1, "mara", "browser")];
    for ((photo, place), count) in cases.iter().zip(2..) {
        let name = hexadecimal(&sha256(photo));
        // before the photo or after it
        assert_eq!(put(&house, &mara, &name, None, photo).await.value()["complete"], true);
        events.push(json!({
            "id": number(count), "schema": 1, "actor": "mara", "device": "browser", "device_time": "2026-05-06T11:00:00Z",
            "happened": {"kind": "photo_taken", "photo": name, "of": {"hole": hole}},
        }));
        expected.push((name, *place));
    }
    let absent = "ab".repeat(32);
    events.push(json!({
        "id": number(99), "schema": 1, "actor": "mara", "device": "browser", "device_time": "2026-05-06T11:00:00Z",
        "happened": {"kind": "photo_taken", "photo": absent, "of": {"hole": hole}},
    }));
    let sent = house.json(&mara, "POST", "/api/events", &json!({"events": events})).await.value();
    assert!(sent["events"].as_array().unwrap().iter().all(|event| event["outcome"] == "recorded"), "{sent}");
    for path in [format!("/api/known/holes/{hole}"), "/api/known/holes".to_owned()] {
        let shown = house.get(&mara, &path).await.value();
        let row = if shown["known"].is_array() { &shown["known"][0] } else { &shown };
        assert_eq!(row["known"]["photos"].as_array().unwrap().len(), expected.len() + 1);
        let files = row["photo_files"].as_array().unwrap();
        assert_eq!(files.len(), expected.len(), "the one that has not come has no file");
        for (file, (name, place)) in files.iter().zip(&expected) {
            assert_eq!(
                (file["photo"].as_str(), file["media_type"].as_str()),
                (Some(name.as_str()), Some("image/jpeg"))
            );
            let read = file["place"].as_object().map(|at| (at["lon"].as_f64().unwrap(), at["lat"].as_f64().unwrap()));
            match (read, place) {
                (Some(read), Some(place)) => {
                    assert!((read.0 - place.0).abs() < 1e-9 && (read.1 - place.1).abs() < 1e-9, "{read:?} {place:?}");
                }
                (read, place) => assert_eq!(read, *place),
            }
        }
    }
    for (name, _) in &expected {
        let shown = house.get(&mara, &format!("/api/photos/{name}")).await;
        assert_eq!(shown.status, StatusCode::OK);
        assert!(!shown.bytes.windows(4).any(|window| window == b"Exif"), "stripped");
    }
    let open = house.get(&Client::default(), "/ogc/collections/holes/items?limit=10").await.text();
    assert!(open.contains("\"photos\":8") && !open.contains(&expected[0].0), "{open}");
    // another server's folder on the same record
    std::fs::remove_dir_all(house.folder.path().join("photos")).unwrap();
    let gone = house.get(&mara, &format!("/api/photos/{}", expected[0].0)).await;
    gone.is_problem(404);
    assert!(gone.text().contains("share the folder"), "{}", gone.text());
}
