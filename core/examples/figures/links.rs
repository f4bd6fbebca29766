//! How small a plan becomes in a link, and which printed code holds it.

use crate::figure::print;
use crate::saved::plans;
use borewright_core::file::link;

pub fn print_all() {
    let most = ["at most 900", "at most 900", "at most 1500", "at most 1500"];
    for ((name, plan), most) in plans().into_iter().zip(most) {
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
