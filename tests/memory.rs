//! Hostile files and links never take more than 16 times what they weigh, and no file over 64 MB is
//! read at all.
//!
//! A test of its own, since it counts every byte the process holds.

use borewright_core::file::{self, link};
use peak_alloc::PeakAlloc;

#[global_allocator]
static HELD: PeakAlloc = PeakAlloc;

const MB: usize = 1 << 20;

/// The most that was held while something was done, beyond what was held before.
fn peak(work: impl FnOnce()) -> usize {
    HELD.reset_peak_usage();
    let before = HELD.current_usage();
    work();
    HELD.peak_usage().saturating_sub(before)
}

fn head(rest: &str) -> String {
    format!("{{\"format\":\"borewright plan\",\"version\":1,{rest}")
}

/// Files of a megabyte made to unfold: long lists of little things, deep nesting, many keys,
/// long texts, and all of them cut.
fn files() -> Vec<(&'static str, String)> {
    [lists(), texts()].concat()
}

fn long(unit: &str) -> String {
    unit.repeat(MB / unit.len())
}

fn lists() -> Vec<(&'static str, String)> {
    vec![
        (
            "numbers for drops",
            head(&format!("\"drops\":[{}0]}}", long("0,"))),
        ),
        (
            "empty drops",
            head(&format!("\"drops\":[{}0]}}", long("{},"))),
        ),
        (
            "lists for walls",
            head(&format!("\"levels\":[{{\"walls\":[{}0]}}]}}", long("[],"))),
        ),
        (
            "known dimensions",
            head(&format!(
                "\"levels\":[{{\"sheet\":{{\"known\":[{}0]}}}}]}}",
                long("{\"from\":[0,0],\"to\":[9,9],\"length\":9},"),
            )),
        ),
        (
            "corners",
            head(&format!(
                "\"levels\":[{{\"keep_outs\":[{{\"id\":1,\"reason\":\"duct\",\"bottom\":0,\"top\":9,\"shape\":{{\"corners\":[{}[0,0]]}}}}]}}]}}",
                long("[0,0],"),
            )),
        ),
        (
            "replies",
            head(&format!("\"replies\":[{}{{}}]}}", long("{},"))),
        ),
        (
            "answers",
            head(&format!(
                "\"replies\":[{{\"name\":\"a\",\"answers\":[{}0]}}]}}",
                long("{\"item\":\"closet\",\"digest\":1},"),
            )),
        ),
        (
            "bits",
            head(&format!("\"catalogue\":{{\"bits\":[{}9]}}}}", long("9,"))),
        ),
    ]
}

fn texts() -> Vec<(&'static str, String)> {
    vec![
        (
            "a long note",
            head(&format!("\"note\":\"{}\"}}", long("n"))),
        ),
        ("deep lists", head(&format!("\"pins\":{}", long("[")))),
        (
            "deep objects",
            head(&format!("\"pins\":{}", long("{\"a\":"))),
        ),
        (
            "many keys",
            head(&format!(
                "{}\"z\":0}}",
                (0..80_000)
                    .map(|n| format!("\"k{n}\":0,"))
                    .collect::<String>(),
            )),
        ),
        ("many lines", head(&long("x\n"))),
        (
            "a cut picture",
            head(&format!(
                "\"scans\":[{{\"level\":1,\"base64\":\"{}",
                long("AAAA")
            )),
        ),
    ]
}

#[test]
fn hostile_bytes_stay_small() {
    for (name, text) in files() {
        for bytes in [text.as_bytes(), &text.as_bytes()[..text.len() - 9]] {
            let held = peak(|| drop(file::read(bytes)));
            println!("{name}: {} KB of {}", held >> 10, bytes.len() >> 10);
            assert!(held < 16 * MB, "{name}: {} KB", held >> 10);
        }
    }
    // A link that would unpack to 16 MB, and one that claims as many drops as a number can say.
    for contents in [
        vec![0; 16 * MB],
        vec![17, 9, 255, 255, 255, 255, 255, 255, 255, 255, 1],
    ] {
        let packed = miniz_oxide::deflate::compress_to_vec(&contents, 10);
        let mut bytes = vec![0xB1];
        bytes.extend(&(packed.len() as u32).to_le_bytes()[..3]);
        bytes.extend(crc32fast::hash(&contents).to_le_bytes());
        bytes.extend(packed);
        let held = peak(|| assert!(link::read(&bytes).is_err()));
        assert!(held < MB, "{held} bytes");
    }
    let text = "b".repeat(10 * MB);
    let held = peak(|| assert!(link::decode_text(&text).is_err()));
    assert!(held < MB, "{held} bytes");
    let plan = file::read(
        &std::fs::read(concat!(
            env!("CARGO_MANIFEST_DIR"),
            "/../static/demo/demo.json"
        ))
        .unwrap(),
    );
    assert!(plan.unwrap().losses.is_empty());
}
