//! One thing on the page, and what a person does with it.

use crate::hand::Point;
use crate::page::{Page, one_spaced};
use fantoccini::elements::Element;
use serde_json::{Value, json};

/// Brings the thing into view and tells its box and what lies on top at a place in it.
const LOOK_AT: &str = r"
    const [e, fx, fy] = arguments;
    e.scrollIntoView({ block: 'nearest', inline: 'nearest', behavior: 'instant' });
    const box = e.getBoundingClientRect();
    const [x, y] = [box.left + box.width * fx, box.top + box.height * fy];
    const top = document.elementFromPoint(x, y);
    const free = top && (e.contains(top) || top.contains(e) || top.closest('label')?.control === e);
    const what = top ? top.outerHTML.slice(0, 120) : 'nothing';
    return [x, y, Boolean(free), what];
";

/// A thing on the page. It stays usable for as long as the page keeps it.
pub struct Thing<'a> {
    pub(crate) page: &'a Page,
    pub(crate) element: Element,
}

impl Thing<'_> {
    /// Taps or clicks the middle.
    pub fn tap(&self) {
        self.page.tap_at(self.reachable());
    }

    /// Opens what the second button or a long press opens.
    pub fn long_press(&self) {
        self.page.long_press_at(self.reachable());
    }

    /// Puts the pointer over the middle without pressing.
    pub fn hover(&self) {
        self.page.move_to(self.reachable());
    }

    /// Replaces what stands in the field, as typed keys. Ends without Enter: add `\n` for it.
    pub fn fill(&self, words: &str) {
        self.tap();
        self.page.press("Control+a");
        self.page.keys(words);
    }

    /// Chooses an option of a list by its words.
    pub fn choose(&self, option: &str) {
        self.wait(async |element| element.select_by_label(option).await);
    }

    /// The text in it, with runs of white space as one space.
    pub fn text(&self) -> String {
        one_spaced(
            self.ask("return arguments[0].textContent")
                .as_str()
                .unwrap_or_default(),
        )
    }

    /// What stands in the field.
    pub fn value(&self) -> String {
        self.ask("return String(arguments[0].value)")
            .as_str()
            .unwrap_or_default()
            .to_string()
    }

    /// Whether a box is ticked or a button is pressed in.
    pub fn is_on(&self) -> bool {
        let script = "const e = arguments[0]; return e.checked === true || ['aria-checked',
            'aria-pressed', 'aria-selected', 'aria-current', 'aria-expanded']
            .some((name) => e.hasAttribute(name) && e.getAttribute(name) !== 'false')";
        self.ask(script).as_bool().unwrap_or(false)
    }

    /// Whether it can be used.
    pub fn is_enabled(&self) -> bool {
        let script = "return !arguments[0].matches(':disabled, [aria-disabled=true]')";
        self.ask(script).as_bool().unwrap_or(false)
    }

    /// An attribute of the markup, if it has it.
    pub fn attribute(&self, name: &str) -> Option<String> {
        self.wait(async |element| element.attr(name).await)
    }

    /// Left, top, width and height in the window, in CSS pixels.
    pub fn outline(&self) -> (f64, f64, f64, f64) {
        let script = "const b = arguments[0].getBoundingClientRect();
            return [b.left, b.top, b.width, b.height]";
        let [left, top, width, height] = numbers(&self.ask(script));
        (left, top, width, height)
    }

    /// A place in its box, as fractions from the left and the top.
    pub fn at(&self, across: f64, down: f64) -> Point {
        let (left, top, width, height) = self.outline();
        Point {
            x: left + width * across,
            y: top + height * down,
        }
    }

    /// Where a point in the thing's own SVG coordinates lies in the window, whatever turns,
    /// scales and shifts stand between. For an `<image>`, multiply its width and height.
    pub fn svg_at(&self, x: f64, y: f64) -> Point {
        let script = "const [e, x, y] = arguments;
            const p = new DOMPoint(x, y).matrixTransform(e.getScreenCTM()); return [p.x, p.y]";
        let place = self
            .page
            .browser
            .run(script, vec![self.json(), json!(x), json!(y)]);
        let [x, y] = numbers(&place);
        Point { x, y }
    }

    /// Runs JavaScript with the thing as `arguments[0]`; for measuring, as [`Page::run`].
    pub fn ask(&self, script: &str) -> Value {
        self.page.browser.run(script, vec![self.json()])
    }

    /// The middle, once it has come to rest and nothing else lies on top.
    fn reachable(&self) -> Point {
        let mut last = Value::Null;
        let is_free = self.page.wait_for(|| {
            let now = self
                .page
                .browser
                .run(LOOK_AT, vec![self.json(), json!(0.5), json!(0.5)]);
            let is_still = now == last;
            last = now;
            is_still && last[2] == true
        });
        assert!(
            is_free,
            "the thing cannot be reached; on top lies {}",
            last[3]
        );
        let [x, y] = numbers(&last);
        Point { x, y }
    }

    pub(crate) fn json(&self) -> Value {
        json!({ "element-6066-11e4-a52e-4f735466cecf": self.element.element_id().to_string() })
    }

    pub(crate) fn wait<T, E: std::fmt::Display>(
        &self,
        command: impl AsyncFnOnce(&Element) -> Result<T, E>,
    ) -> T {
        let done = self
            .page
            .browser
            .wait(async |_| command(&self.element).await);
        done.expect("the thing is still on the page and can do this")
    }
}

/// The first numbers of a JSON list.
fn numbers<const N: usize>(list: &Value) -> [f64; N] {
    std::array::from_fn(|at| list[at].as_f64().expect("a number from the page"))
}
