//! The ways on and back in a list of which only a stretch is shown.

use std::ops::Range;

use borewright_core::desk::{stretch, stretch_before};
use borewright_core::units::counted;
use yew::prelude::*;

use crate::parts::{Press, PressKind};

/// Which part of a list is shown, and how one comes to the others.
#[derive(Clone, PartialEq)]
pub struct Shown {
    /// The places of what is shown.
    pub range: Range<usize>,
    /// So many there are.
    pub of: usize,
    /// Where the part before begins, and how many the part after has.
    before: usize,
    after: usize,
}

impl Shown {
    /// The part of a list whose entries take so many lines that begins at a place.
    pub fn of(lines: &[usize], first: usize) -> Self {
        let range = stretch(lines, first);
        Self {
            of: lines.len(),
            before: stretch_before(lines, range.start),
            after: match range.end < lines.len() {
                true => stretch(lines, range.end).len(),
                false => 0,
            },
            range,
        }
    }

    /// Whether it is all of the list.
    pub fn is_all(&self) -> bool {
        self.range.len() == self.of
    }

    /// "21 to 40 of 200 drops".
    fn words(&self, one: &str) -> String {
        let (first, last) = (self.range.start + 1, self.range.end);
        format!("{first} to {last} of {}", counted(self.of, one))
    }
}

/// What an [`Earlier`] shows and does.
#[derive(Properties, PartialEq)]
pub struct EarlierProps {
    /// What is shown.
    pub shown: Shown,
    /// What one of them is called.
    pub one: AttrValue,
    /// Called with the place from which another part is to be shown.
    pub onshow: Callback<usize>,
}

/// Above a part of a list: which it is, and the way back. Nothing where all is shown.
#[component]
pub fn Earlier(props: &EarlierProps) -> Html {
    let shown = &props.shown;
    let (first, before) = (shown.range.start, shown.before);
    if shown.is_all() {
        return html! {};
    }
    let onpress = props.onshow.reform(move |()| before);
    html! {
        <div class="Stretch">
            <p class="Quiet" role="status">{ shown.words(&props.one) }</p>
            if first > 0 {
                <Press label={format!("Show {} before", counted(first - before, &props.one))}
                    kind={PressKind::Quiet} {onpress} />
            }
        </div>
    }
}

/// What a [`Later`] shows and does.
#[derive(Properties, PartialEq)]
pub struct LaterProps {
    /// What is shown.
    pub shown: Shown,
    /// Called with the place from which another part is to be shown.
    pub onshow: Callback<usize>,
}

/// Below a part of a list: the way on. Nothing where none follow.
#[component]
pub fn Later(props: &LaterProps) -> Html {
    let (end, after) = (props.shown.range.end, props.shown.after);
    if after == 0 {
        return html! {};
    }
    let onpress = props.onshow.reform(move |()| end);
    html! { <Press label={format!("Show {after} more")} {onpress} /> }
}
