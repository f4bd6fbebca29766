//! Files that belong to the page: fetched from beside it, or found in it where it is one file that
//! holds everything.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use borewright_core::file::page::{PLAN_ID, PROGRAM_ID, Parts, WASM_ID};
use gloo::net::http::Request;
use miniz_oxide::inflate::decompress_to_vec_zlib;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlLinkElement};

/// The licences of everything in the page, as plain text.
pub const LICENCES: &str = "./licences.txt";

/// Files that the styles, the sheets and the page ask for.
const FILES: [&str; 5] = [
    LICENCES,
    "./fonts/borewright-sans-regular.woff2",
    "./fonts/borewright-sans-bold.woff2",
    "./fonts/borewright-sans-regular.ttf",
    "./fonts/borewright-sans-bold.ttf",
];

/// The bytes of a file beside the page; `None` when it cannot be fetched.
pub async fn read(address: &str) -> Option<Vec<u8>> {
    if let Some(held) = element(&format!("script[data-asset=\"{address}\"]")) {
        return STANDARD.decode(held.text_content()?.trim()).ok();
    }
    let answer = Request::get(address).send().await.ok()?;
    match answer.ok() {
        true => answer.binary().await.ok(),
        false => None,
    }
}

/// The plan that lies in the page, as it was saved; `None` for a page that is no file of its own.
pub fn plan() -> Option<Vec<u8>> {
    Some(by_id(PLAN_ID)?.text_content()?.into_bytes())
}

/// Where a plan to look at came from: "a link", or "a file" for a page that is one.
pub fn origin() -> &'static str {
    match by_id(PLAN_ID) {
        Some(_) => "a file",
        None => "a link",
    }
}

/// The script and the packed program that lie in the page.
pub fn program() -> Option<(String, String)> {
    let text = |id| by_id(id)?.text_content();
    Some((text(PROGRAM_ID)?, text(WASM_ID)?))
}

/// Everything a page of its own is made of; `None` when something cannot be fetched.
pub async fn parts() -> Option<Parts> {
    let mut assets = Vec::new();
    for address in FILES {
        assets.push((address.to_string(), read(address).await?));
    }
    let (script, wasm, styles) = match program() {
        Some((script, packed)) => held_parts(&script, &packed)?,
        None => fetched_parts().await?,
    };
    Some(Parts {
        script,
        wasm,
        styles,
        assets,
    })
}

type Core = (String, Vec<u8>, Vec<String>);

/// The parts of a page that is a file of its own: they lie in it, the styles with their fonts.
fn held_parts(script: &str, packed: &str) -> Option<Core> {
    // What starts the program is added anew.
    let script = script.split("\nconst held = ").next()?.to_string();
    let wasm = decompress_to_vec_zlib(&STANDARD.decode(packed.trim()).ok()?).ok()?;
    let styles = elements("head > style");
    let styles = styles.iter().filter_map(|style| style.text_content());
    Some((script, wasm, styles.collect()))
}

/// The parts of a page that was served: fetched once more, as the browser has kept them.
async fn fetched_parts() -> Option<Core> {
    let link = |what: &str| {
        let link: HtmlLinkElement = element(what)?.dyn_into().ok()?;
        Some(link.href())
    };
    let script = read(&link("link[rel=modulepreload]")?).await?;
    let wasm = read(&link("link[rel=preload][as=fetch]")?).await?;
    let mut styles = Vec::new();
    for sheet in elements("link[rel=stylesheet]") {
        let sheet: HtmlLinkElement = sheet.dyn_into().ok()?;
        styles.push(String::from_utf8(read(&sheet.href()).await?).ok()?);
    }
    Some((String::from_utf8(script).ok()?, wasm, styles))
}

fn element(what: &str) -> Option<Element> {
    gloo::utils::document().query_selector(what).ok()?
}

fn by_id(id: &str) -> Option<Element> {
    // A worker has no document.
    web_sys::window()?.document()?.get_element_by_id(id)
}

fn elements(what: &str) -> Vec<Element> {
    let Ok(found) = gloo::utils::document().query_selector_all(what) else {
        return Vec::new();
    };
    let all = (0..found.length()).filter_map(|place| found.get(place)?.dyn_into().ok());
    all.collect()
}
