//! Answers of Open311: what is read can be written and read again, the same.
#![no_main]

use std::fmt::Debug;

use intake::open311::answers::{Created, Service, ServiceDefinition, ServiceRequest, TokenNumber};
use intake::open311::refusal::Fault;
use intake::open311::wire::{Answer, Format, read, write};
use libfuzzer_sys::fuzz_target;

fn returns<A: Answer + PartialEq + Debug>(bytes: &[u8], format: Format) {
    match read::<A>(bytes, format) {
        Ok(answer) => {
            let written = write(&answer, format);
            let again: A = read(written.as_bytes(), format).expect("our own answer");
            // In XML blanks around a text do not count, and what no XML file may hold is replaced.
            assert_eq!(
                write(&again, format),
                write(&read::<A>(write(&again, format).as_bytes(), format).expect("again"), format)
            );
            if format == Format::Json {
                assert_eq!(again, answer);
            }
        }
        Err(fault) => assert!(!fault.wrong.is_empty() && !fault.right.is_empty()),
    }
}

fuzz_target!(|bytes: &[u8]| {
    for format in [Format::Json, Format::Xml] {
        returns::<Vec<Service>>(bytes, format);
        returns::<ServiceDefinition>(bytes, format);
        returns::<Vec<ServiceRequest>>(bytes, format);
        returns::<Vec<Created>>(bytes, format);
        returns::<Vec<TokenNumber>>(bytes, format);
        returns::<Vec<Fault>>(bytes, format);
    }
});
