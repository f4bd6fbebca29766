//! Finds things on the page by what a screen reader would say of them, or by their visible text.
//!
//! Roles and names come from Chromium's own accessibility tree, not from the markup.

use crate::page::Page;
use crate::thing::Thing;
use fantoccini::elements::{Element, ElementRef};
use serde_json::{Value, json};

/// Roles of bare text, which belong to something that has the name too.
const TEXT_ROLES: [&str; 4] = ["StaticText", "InlineTextBox", "LabelText", "none"];

/// The key under which WebDriver passes an element (W3C WebDriver, section 12.1).
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// Finds the innermost elements that can be seen and hold the words; the shortest text first.
const BY_TEXT: &str = r"
    const words = arguments[0];
    const spaced = (e) => e.textContent.replace(/\s+/g, ' ').trim();
    const shows = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true })
        && e.getBoundingClientRect().width > 0;
    const holds = [...document.body.querySelectorAll('*:not(script, style, title, option)')]
        .filter((e) => spaced(e).includes(words) && shows(e));
    const inner = holds.filter((e) => !holds.some((o) => o !== e && e.contains(o)));
    return inner.sort((a, b) => spaced(a).length - spaced(b).length)[0] ?? null;
";

/// What the accessibility tree says of one thing.
struct Described {
    role: String,
    name: String,
    node: i64,
}

impl Page {
    /// The button with this name.
    pub fn button(&self, name: &str) -> Thing<'_> {
        self.role("button", name)
    }

    /// The text field with this label.
    pub fn field(&self, label: &str) -> Thing<'_> {
        self.role("textbox", label)
    }

    /// The thing with this role and name. Roles are those of WAI-ARIA: "checkbox", "radio",
    /// "tab", "link", "combobox", "slider", "listitem", "row", "img", "status", "dialog" and so on.
    pub fn role(&self, role: &str, name: &str) -> Thing<'_> {
        self.one(Some(role), name)
    }

    /// The thing with this name, whatever its role.
    pub fn labelled(&self, name: &str) -> Thing<'_> {
        self.one(None, name)
    }

    /// Every thing with this role, with its name, in the order of the page; does not wait.
    pub fn all(&self, role: &str) -> Vec<(String, Thing<'_>)> {
        let described = self.tree(Some(role), None);
        described
            .into_iter()
            .filter_map(|one| Some((one.name, self.thing(one.node)?)))
            .collect()
    }

    /// Whether there is a thing with this role and exactly this name; does not wait.
    pub fn has(&self, role: &str, name: &str) -> bool {
        !self.tree(Some(role), Some(name)).is_empty()
    }

    /// The innermost thing whose visible text has `words` in it.
    pub fn text_of(&self, words: &str) -> Thing<'_> {
        let mut found = Value::Null;
        let is_there = self.wait_for(|| {
            found = self.browser.run(BY_TEXT, vec![json!(words)]);
            !found.is_null()
        });
        assert!(
            is_there,
            "no text `{words}`; the page says: {}",
            self.text()
        );
        self.held(&found)
    }

    fn one(&self, role: Option<&str>, name: &str) -> Thing<'_> {
        let mut seen = String::from("one that went away at every look");
        let thing = self.until_some(|| match self.look_for(role, name) {
            // It may have been drawn anew since the look; then another look finds it.
            Ok(node) => self.thing(node),
            Err(others) => {
                seen = others;
                None
            }
        });
        thing.unwrap_or_else(|| {
            panic!(
                "no {} named `{name}`; there is: {seen}",
                role.unwrap_or("thing")
            )
        })
    }

    /// One look: the node of the thing, or a list of what there is.
    fn look_for(&self, role: Option<&str>, name: &str) -> Result<i64, String> {
        let equal = self.tree(role, Some(name));
        if let [one] = equal.as_slice() {
            return Ok(one.node);
        }
        let all = if equal.is_empty() {
            self.tree(role, None)
        } else {
            equal
        };
        let similar: Vec<_> = all.iter().filter(|one| one.name.contains(name)).collect();
        match similar.as_slice() {
            [one] => Ok(one.node),
            _ => Err(listed(&all)),
        }
    }

    /// What the accessibility tree has with this role and exactly this name.
    fn tree(&self, role: Option<&str>, name: Option<&str>) -> Vec<Described> {
        self.try_tree(role, name).unwrap_or_default()
    }

    /// `None` while the page is being replaced by another.
    fn try_tree(&self, role: Option<&str>, name: Option<&str>) -> Option<Vec<Described>> {
        let page = json!({ "expression": "document" });
        let page = self.browser.devtools("Runtime.evaluate", page).ok()?;
        let mut query = json!({ "objectId": page["result"]["objectId"] });
        if let Some(role) = role {
            query["role"] = json!(role);
        }
        if let Some(name) = name {
            query["accessibleName"] = json!(name);
        }
        let answer = self
            .browser
            .devtools("Accessibility.queryAXTree", query)
            .ok()?;
        let nodes = answer["nodes"].as_array()?.iter().filter_map(described);
        Some(
            nodes
                .filter(|one| role.is_some() || !TEXT_ROLES.contains(&&*one.role))
                .collect(),
        )
    }

    /// Hands a node of the DevTools protocol to WebDriver; `None` when it is no longer on the page.
    fn thing(&self, node: i64) -> Option<Thing<'_>> {
        let node = json!({ "backendNodeId": node });
        let resolved = self.browser.devtools("DOM.resolveNode", node).ok()?;
        let call = json!({
            "objectId": resolved["object"]["objectId"],
            "functionDeclaration": "function () { window.handedOver = this }",
        });
        self.browser.devtools("Runtime.callFunctionOn", call).ok()?;
        let script = "const e = window.handedOver; delete window.handedOver; return e";
        let handed = self
            .browser
            .wait(async |client| client.execute(script, vec![]).await);
        Some(self.held(&handed.ok()?))
    }

    fn held(&self, value: &Value) -> Thing<'_> {
        let id = value[ELEMENT].as_str().expect("an element").to_string();
        let client = self
            .browser
            .wait(async |client| Ok::<_, String>(client.clone()));
        let client = client.expect("a client");
        Thing {
            page: self,
            element: Element::from_element_id(client, ElementRef::from(id)),
        }
    }
}

fn described(node: &Value) -> Option<Described> {
    if node["ignored"].as_bool().unwrap_or(false) {
        return None;
    }
    Some(Described {
        role: node["role"]["value"].as_str()?.to_string(),
        name: node["name"]["value"]
            .as_str()
            .unwrap_or_default()
            .to_string(),
        node: node["backendDOMNodeId"].as_i64()?,
    })
}

/// The first few things, for a message.
fn listed(all: &[Described]) -> String {
    let named = all.iter().filter(|one| !one.name.is_empty());
    let words: Vec<_> = named
        .take(60)
        .map(|one| format!("{} `{}`", one.role, one.name))
        .collect();
    if words.is_empty() {
        "nothing that has a name".into()
    } else {
        words.join(", ")
    }
}
