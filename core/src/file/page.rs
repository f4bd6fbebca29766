//! One page file that holds everything: the program, its styles and fonts, a plan with its drawings.
//! It opens from a disk, with no network and no server.
//!
//! The parts come from whoever has them; here they are only put together, so that nothing in a plan
//! can be taken for markup or script.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use miniz_oxide::deflate::compress_to_vec_zlib;

use crate::plan::Plan;

/// The element that holds the plan.
pub const PLAN_ID: &str = "borewright-plan";

/// The element that holds the program's script.
pub const PROGRAM_ID: &str = "borewright-program";

/// The element that holds the program itself, packed.
pub const WASM_ID: &str = "borewright-wasm";

/// What the page is made of.
#[derive(Clone, Debug, Default)]
pub struct Parts {
    /// The script that belongs to the program, as `wasm-bindgen` makes it for the web.
    pub script: String,
    /// The program, as WebAssembly.
    pub wasm: Vec<u8>,
    /// The styles, in their order.
    pub styles: Vec<String>,
    /// Files that the styles or the program ask for, by the address they ask with.
    pub assets: Vec<(String, Vec<u8>)>,
}

/// What is let in: what lies in the page itself, and nothing else.
const POLICY: &str = "default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval' blob:; \
    style-src 'unsafe-inline'; img-src blob: data:; font-src data:; worker-src blob:; \
    base-uri 'none'; form-action 'none'";

/// Starts the program. A worker has no document; it finds the packed program where its own first line
/// left it.
const START: &str = "
const held = globalThis.borewrightHeld ?? document.getElementById('borewright-wasm').textContent;
const packed = Uint8Array.from(atob(held.trim()), (letter) => letter.charCodeAt(0));
const opened = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate'));
await __wbg_init({ module_or_path: await new Response(opened).arrayBuffer() });
";

/// The page. The same parts and plan give the same text.
pub fn page(parts: &Parts, plan: &Plan) -> String {
    let styles: String = parts
        .styles
        .iter()
        .map(|style| tag("style", "", &with_assets(style, &parts.assets)))
        .collect();
    let assets: String = parts
        .assets
        .iter()
        .map(|(address, bytes)| {
            let named = format!(" type=\"text/plain\" data-asset=\"{}\"", escaped(address));
            tag("script", &named, &STANDARD.encode(bytes))
        })
        .collect();
    let wasm = STANDARD.encode(compress_to_vec_zlib(&parts.wasm, 6));
    let saved = String::from_utf8_lossy(&super::write(plan)).replace('<', "\\u003c");
    let script = format!("{}{START}", without_exports(&parts.script));
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1, viewport-fit=cover\">\n\
         <title>{}</title>\n{styles}</head>\n<body>\n<div id=\"page\"></div>\n{}{assets}{}{}</body>\n</html>\n",
        escaped(&plan.title),
        tag(
            "script",
            &format!(" type=\"application/json\" id=\"{PLAN_ID}\""),
            &saved
        ),
        tag(
            "script",
            &format!(" type=\"text/plain\" id=\"{WASM_ID}\""),
            &wasm
        ),
        tag(
            "script",
            &format!(" type=\"module\" id=\"{PROGRAM_ID}\""),
            &script
        ),
    )
}

/// An element whose content is raw text: whatever would end it early is broken up.
fn tag(name: &str, attributes: &str, content: &str) -> String {
    let content = content.replace("</", "<\\/");
    format!("<{name}{attributes}>{content}</{name}>\n")
}

/// A style whose addresses are replaced by the files themselves.
fn with_assets(style: &str, assets: &[(String, Vec<u8>)]) -> String {
    assets
        .iter()
        .fold(style.to_string(), |style, (address, bytes)| {
            let inline = || format!("url(\"data:font/woff2;base64,{}\")", STANDARD.encode(bytes));
            let asked = format!("url(\"{address}\")");
            match style.contains(&asked) {
                true => style.replace(&asked, &inline()),
                false => style,
            }
        })
}

/// The script as a part of a larger one, which nobody imports from.
fn without_exports(script: &str) -> String {
    let lines = script.lines().map(|line| match line.trim_start() {
        list if list.starts_with("export {") => "",
        item => item.strip_prefix("export ").unwrap_or(line),
    });
    lines.flat_map(|line| [line, "\n"]).collect()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file;
    use crate::plan::edit::{Edit, sample};
    use proptest::prelude::*;

    fn parts() -> Parts {
        Parts {
            script:
                "export class Order {}\nconst a = '</script>';\nexport { a, Order as default };\n"
                    .into(),
            wasm: vec![0, 97, 115, 109],
            styles: vec!["@font-face { src: url(\"./fonts/a.woff2\") }".into()],
            assets: vec![("./fonts/a.woff2".into(), vec![1, 2, 3])],
        }
    }

    /// What stands in the element with this mark.
    fn content<'a>(page: &'a str, mark: &str) -> &'a str {
        let from = page.find(mark).map(|at| at + mark.len() + 1).unwrap();
        page[from..].split("</").next().unwrap()
    }

    #[test]
    fn everything_lies_in_the_page() {
        let page = page(&parts(), &Plan::new());
        assert!(
            page.contains("url(\"data:font/woff2;base64,AQID\")"),
            "{page}"
        );
        assert_eq!(content(&page, "data-asset=\"./fonts/a.woff2\""), "AQID");
        let packed = STANDARD
            .decode(content(&page, "id=\"borewright-wasm\""))
            .unwrap();
        let wasm = miniz_oxide::inflate::decompress_to_vec_zlib(&packed).unwrap();
        assert_eq!(wasm, parts().wasm);
        let script = content(&page, "id=\"borewright-program\"");
        assert!(
            script.starts_with("class Order {}\nconst a = '<\\/script>';\n\n\nconst held"),
            "{script}"
        );
    }

    #[test]
    fn a_title_is_no_markup() {
        let title = "</title><script>alert(1)</script>";
        let plan = Plan::new().apply(&Edit::SetTitle(title.into())).unwrap();
        let page = page(&parts(), &plan);
        assert!(!page.contains("<script>alert"), "{page}");
        let saved = content(&page, "id=\"borewright-plan\"");
        assert_eq!(file::read(saved.as_bytes()).unwrap().plan.title, title);
    }

    proptest! {
        #[test]
        fn every_plan_comes_back_from_its_page(seed: u64) {
            let plan = sample::plan(seed, 120);
            let page = page(&parts(), &plan);
            let saved = content(&page, "id=\"borewright-plan\"");
            prop_assert_eq!(file::read(saved.as_bytes()).unwrap().plan, plan);
        }
    }
}
