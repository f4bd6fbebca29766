//! Printing.

use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;

/// Asks the browser to print the page as it stands.
pub fn print() {
    // A browser without printing says so itself.
    let _ = gloo::utils::window().print();
}

/// Says which paper the browser should ask the printer for: a size in millimetres. Set through the
/// style sheet object, which the page's content policy allows.
pub fn set_size(width: f64, height: f64) {
    let rule = format!("@page {{ size: {width}mm {height}mm; margin: 0 }}");
    let Some(window) = web_sys::window() else {
        return;
    };
    let sheet = js_sys::Reflect::get(&window, &"CSSStyleSheet".into());
    let made = sheet
        .ok()
        .and_then(|class| class.dyn_into::<js_sys::Function>().ok());
    let Some(sheet) =
        made.and_then(|class| js_sys::Reflect::construct(&class, &js_sys::Array::new()).ok())
    else {
        return;
    };
    let replace = js_sys::Reflect::get(&sheet, &"replaceSync".into());
    let replaced = replace
        .ok()
        .and_then(|f| f.dyn_into::<js_sys::Function>().ok());
    let done = replaced.map(|f| f.call1(&sheet, &JsValue::from_str(&rule)));
    if matches!(done, Some(Ok(_))) {
        let sheets = js_sys::Array::of1(&sheet);
        // Browsers without adopted sheets print on the paper their dialogue names.
        let _ = js_sys::Reflect::set(
            &gloo::utils::document(),
            &"adoptedStyleSheets".into(),
            &sheets,
        );
    }
}
