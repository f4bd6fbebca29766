//! What is mutated: the samples and plans the tests keep, without their pictures, which are bytes
//! that no reader looks into.

use borewright_core::design::Design;
use borewright_core::desk::{Intent, Session};
use borewright_core::file::job::Journal;
use borewright_core::file::{self, link};
use borewright_core::plan::Plan;
use borewright_core::plan::edit::{Edit, Note};
use std::path::Path;

/// Samples by kind.
pub struct Corpus {
    /// Saved plans.
    pub files: Vec<Vec<u8>>,
    /// Links as text.
    pub links: Vec<Vec<u8>>,
    /// The contents of links, unpacked, so that mutations get past the checksum.
    pub contents: Vec<Vec<u8>>,
    /// Replies as text.
    pub replies: Vec<Vec<u8>>,
    /// The contents of replies, unpacked.
    pub reply_contents: Vec<Vec<u8>>,
    /// Heads of pictures.
    pub pictures: Vec<Vec<u8>>,
    /// Lengths and sizes as people write them.
    pub lengths: Vec<Vec<u8>>,
    /// Journals of jobs, every record after its length.
    pub journals: Vec<Vec<u8>>,
}

/// A plan as a link carries it, but with its record, which a file carries too.
fn without_pictures(plan: &Plan) -> Plan {
    Plan {
        record: plan.record.clone(),
        ..link::without_drawings(plan)
    }
}

/// Reads the corpus.
pub fn read() -> Corpus {
    let saved = [folder("files", "json"), folder("plans", "json")].concat();
    let plans: Vec<_> = saved
        .iter()
        .filter_map(|bytes| file::read(bytes).ok())
        .map(|opened| without_pictures(&opened.plan))
        .collect();
    let bytes: Vec<Vec<u8>> = plans
        .iter()
        .filter_map(|plan| link::write(plan, link::Privacy::Everything).ok())
        .collect();
    let replies: Vec<Vec<u8>> = plans
        .iter()
        .flat_map(|plan| &plan.replies)
        .filter_map(|reply| link::write_reply(reply).ok())
        .collect();
    let pictures = [folder("plans", "jpg"), folder("plans", "webp")].concat();
    Corpus {
        files: plans.iter().map(file::write).collect(),
        links: spelled(&bytes),
        contents: bytes.iter().map(|bytes| unpacked(bytes)).collect(),
        replies: spelled(&replies),
        reply_contents: replies.iter().map(|bytes| unpacked(bytes)).collect(),
        pictures: pictures
            .into_iter()
            .map(|bytes| bytes.into_iter().take(4000).collect())
            .collect(),
        lengths: LENGTHS
            .iter()
            .map(|text| text.as_bytes().to_vec())
            .collect(),
        journals: plans.iter().map(journal).collect(),
    }
}

/// The journal of a job that a few things were done in, undone and done again.
fn journal(plan: &Plan) -> Vec<u8> {
    let mut session = Session::settled(plan.clone(), Design::unsought(plan));
    let mut journal = Journal::default();
    let mut bytes = Vec::new();
    let title = |text: &str| Intent::Edit(Edit::SetTitle(text.into()));
    let note = Intent::Edit(Edit::Note(Note::AddPunch(None, "sweep".into())));
    for intent in [title("One"), note, Intent::Undo, Intent::Redo, Intent::Undo] {
        session = session.after(&intent);
        let written = journal.follow(&session.history, &session.plan);
        for (_, record) in written.records {
            bytes.extend((record.len() as u32).to_le_bytes());
            bytes.extend(record);
        }
    }
    bytes
}

/// Records that were put together so; a length beyond the end takes what is there.
pub fn records(mut bytes: &[u8]) -> Vec<Vec<u8>> {
    let mut records = Vec::new();
    while let Some((length, rest)) = bytes.split_first_chunk() {
        let length = u32::from_le_bytes(*length) as usize;
        let (record, after) = rest.split_at(length.min(rest.len()));
        records.push(record.to_vec());
        bytes = after;
    }
    records
}

/// The same with right checksums, so that what the records hold is looked at too. The head of a record has
/// its checksum in bytes 12 to 15.
pub fn summed(bytes: &[u8]) -> Vec<Vec<u8>> {
    let mut records = records(bytes);
    for record in records.iter_mut().filter(|record| record.len() >= 16) {
        let length = (record.len() - 16) as u32;
        record[8..12].copy_from_slice(&length.to_le_bytes());
        let mut sum = crc32fast::Hasher::new();
        sum.update(&record[..12]);
        sum.update(&record[16..]);
        record[12..16].copy_from_slice(&sum.finalize().to_le_bytes());
    }
    records
}

const LENGTHS: [&str; 9] = [
    "12' 6-1/2\"",
    "12-6",
    "150 1/2",
    "5 ft 3 in",
    "3,81 m",
    "3810mm",
    "½ in",
    "1-1/4 in",
    "0.5",
];

/// Bytes as a link spells them for copying.
fn spelled(links: &[Vec<u8>]) -> Vec<Vec<u8>> {
    let spell = |bytes: &Vec<u8>| link::encode_text(bytes).into_bytes();
    links.iter().map(spell).collect()
}

/// What an envelope holds: after the version, the length and the checksum, deflated.
fn unpacked(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::inflate::decompress_to_vec(&bytes[8..]).expect("our own link unpacks")
}

/// First byte of a plan's link of version 1.
pub const PLAN: u8 = 0xb1;
/// First byte of a reply's link of version 2.
pub const REPLY: u8 = 0xc2;

/// Contents in an envelope that begins with this byte, with a right checksum.
pub fn packed(first: u8, contents: &[u8]) -> Vec<u8> {
    let inside = miniz_oxide::deflate::compress_to_vec(contents, 1);
    let mut bytes = vec![first];
    bytes.extend((inside.len() as u32).to_le_bytes().iter().take(3));
    bytes.extend(crc32fast::hash(contents).to_le_bytes());
    bytes.extend(inside);
    bytes
}

fn folder(name: &str, ending: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .expect("a folder of samples")
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|end| end == ending))
        .collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| std::fs::read(path).expect("a sample");
    paths.iter().map(read).collect()
}
