//! Photos in pieces, named by what they are, shown without what the camera wrote.

use axum::body::Body;
use axum::http::StatusCode;
use journal::chain::{hexadecimal, sha256};

use crate::client::{Answer, Client, House};

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
