//! How small a plan becomes in a link, and which printed code holds it.

use crate::figure::print;
use borewright_core::file::{self, link};

pub fn print_all() {
    let top = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    for (name, path, most) in [
        ("demo", "static/demo/demo.json", "at most 900"),
        ("house A", "tests/plans/house-a.json", "at most 900"),
        ("house B", "tests/plans/house-b.json", "at most 1500"),
        ("house C", "tests/plans/house-c.json", "at most 1500"),
    ] {
        let bytes = std::fs::read(format!("{top}/{path}")).unwrap();
        let plan = file::read(&bytes).unwrap().plan;
        let linked = link::write(&plan, link::Privacy::Everything).unwrap();
        let how = "before it is spelled in letters, drawing left out";
        print(
            &format!("Link of {name}"),
            linked.len() as f64,
            "bytes",
            most,
            how,
        );
        let address = format!(
            "https://example.test/plan/#{}",
            link::encode_qr_text(&linked)
        );
        let code = link::qr(&address).unwrap();
        let how = "version of the QR code, an address of 27 letters in front";
        let version = f64::from(code.version);
        print(
            &format!("Code of {name}"),
            version,
            "version",
            "at most 25",
            how,
        );
    }
}
