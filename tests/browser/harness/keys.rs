//! The keyboard.

use crate::page::Page;
use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::key::Key;

impl Page {
    /// Types words to whatever has the focus; `\n` is Enter and `\t` is Tab.
    pub fn keys(&self, words: &str) {
        let typed = words.chars().map(|letter| match letter {
            '\n' => Key::Enter.into(),
            '\t' => Key::Tab.into(),
            other => other,
        });
        let keyboard = KeyActions::new("keys".into());
        let actions = typed.fold(keyboard, |keys, value| {
            keys.then(KeyAction::Down { value })
                .then(KeyAction::Up { value })
        });
        self.act(actions.into());
    }

    /// Presses one key, with others held: "Escape", "Control+z", "Control+Shift+z", "Delete".
    pub fn press(&self, chord: &str) {
        let keys: Vec<char> = chord.split('+').map(key).collect();
        let keyboard = KeyActions::new("keys".into());
        let down = keys
            .iter()
            .fold(keyboard, |all, &value| all.then(KeyAction::Down { value }));
        let up = keys
            .iter()
            .rev()
            .fold(down, |all, &value| all.then(KeyAction::Up { value }));
        self.act(up.into());
    }
}

/// The code WebDriver has for a key by its name in `KeyboardEvent.key`.
fn key(name: &str) -> char {
    match name {
        "Control" => Key::Control.into(),
        "Shift" => Key::Shift.into(),
        "Alt" => Key::Alt.into(),
        "Meta" => Key::Meta.into(),
        "Enter" => Key::Enter.into(),
        "Escape" => Key::Escape.into(),
        "Tab" => Key::Tab.into(),
        "Space" => ' ',
        "Delete" => Key::Delete.into(),
        "Backspace" => Key::Backspace.into(),
        "ArrowLeft" => Key::Left.into(),
        "ArrowRight" => Key::Right.into(),
        "ArrowUp" => Key::Up.into(),
        "ArrowDown" => Key::Down.into(),
        "Home" => Key::Home.into(),
        "End" => Key::End.into(),
        "PageUp" => Key::PageUp.into(),
        "PageDown" => Key::PageDown.into(),
        one if one.chars().count() == 1 => one.chars().next().unwrap_or(' '),
        other => panic!("no key is called `{other}`"),
    }
}
