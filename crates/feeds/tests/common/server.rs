//! A service on the loopback address, so that other programs can connect.

use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::sync::{Arc, Mutex};
use std::thread;

use feeds::{Document, Refusal, Request, Service, page_of, read_request};

use super::{People, extent, features, now, service};

/// A running service. It ends with the test's process.
pub struct Server {
    /// Its root, as clients reach it.
    pub root: String,
    asked: Arc<Mutex<Vec<String>>>,
}

impl Server {
    /// Starts one at a free port.
    pub fn start() -> Server {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a free port");
        let root = format!("http://{}/ogc", listener.local_addr().expect("its address"));
        let asked = Arc::new(Mutex::new(Vec::new()));
        let (own, log) = (service(&root), Arc::clone(&asked));
        thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let (own, log) = (own.clone(), Arc::clone(&log));
                thread::spawn(move || answer(&own, stream, &log));
            }
        });
        Server { root, asked }
    }

    /// What was asked so far: path and query below the root.
    pub fn asked(&self) -> Vec<String> {
        self.asked.lock().expect("no thread has panicked").clone()
    }
}

fn answer(service: &Service, mut stream: TcpStream, log: &Mutex<Vec<String>>) {
    let mut reader = BufReader::new(stream.try_clone().expect("a second handle"));
    let mut first = String::new();
    if reader.read_line(&mut first).is_err() {
        return;
    }
    let mut line = String::new();
    while reader.read_line(&mut line).is_ok_and(|read| read > 2) {
        line.clear();
    }
    let address = first.split(' ').nth(1).unwrap_or_default();
    let (path, query) = address.split_once('?').unwrap_or((address, ""));
    let below = path.strip_prefix("/ogc").unwrap_or("/elsewhere");
    log.lock().expect("no thread has panicked").push(address.to_owned());
    let outcome = read_request(below, query, &service.crs).and_then(|request| document(service, &request));
    let (status, document) = match outcome {
        Ok(document) => (200, document),
        Err(refusal) => (refusal.status(), refusal.document()),
    };
    let body = document.body.to_string();
    let crs = document.content_crs.map_or_else(String::new, |crs| format!("Content-Crs: {crs}\r\n"));
    let head = format!(
        "HTTP/1.1 {status} \r\nContent-Type: {}\r\n{crs}Content-Length: {}\r\nConnection: close\r\n\r\n",
        document.media_type,
        body.len()
    );
    // A client that has gone needs no answer.
    let _ = stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(body.as_bytes()));
}

/// The document that a request asks for.
pub fn document(service: &Service, request: &Request) -> Result<Document, Refusal> {
    let people = People::default();
    Ok(match request {
        Request::LandingPage => service.landing_page(),
        Request::ApiDefinition => service.api_definition(),
        Request::Conformance => service.conformance(),
        Request::Collections => service.collections(extent),
        Request::Collection(collection) => service.collection(*collection, &extent(*collection)),
        Request::Items(collection, query) => {
            let page = page_of(&features(*collection, &people), query);
            service.items(*collection, query, &page, now())
        }
        Request::Item { collection, id, crs } => {
            let found = features(*collection, &people).into_iter().find(|feature| feature.id == *id);
            service.item(*collection, id, *crs, found.as_ref())?
        }
    })
}
