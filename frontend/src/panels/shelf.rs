//! The shelf at the bottom: the few tools of the step, what the hand keeps, undo.

use borewright_core::desk::{Hand, Intent, Session, Step, Tool};
use borewright_core::plan::{DropKind, OpeningKind};
use yew::prelude::*;

use super::drawing_shelf::DrawingShelf;
use super::fade::Fade;
use super::hand_options::HandOptions;
use super::icons;
use super::paper_shelf::{CrewTongue, PaperShelf, PaperSize, StackFor};
use super::words::capital;
use crate::hooks::{use_act, use_desk};
use crate::parts::Icon;
use crate::state::Act;

/// The shelf.
#[component]
pub fn Shelf() -> Html {
    let desk = use_desk();
    let items = items(desk.session.step);
    html! {
        <footer class="Shelf">
            <div class="ShelfHints">
                <p class="Hint" role="status">{ desk.session.hint() }</p>
                if has_scan(&desk.session) { <Fade /> }
                if desk.session.step == Step::Sheets {
                    <StackFor />
                    <PaperSize />
                    <CrewTongue />
                }
                <HandOptions />
            </div>
            <div class="ShelfRow">
                <div class="ShelfTools" role="toolbar" aria-label="Tools">
                    if desk.session.step == Step::Sheets {
                        <PaperShelf />
                    }
                    if desk.session.step == Step::Drawing { <DrawingShelf /> }
                    { for items.into_iter().map(|item| html! { <ShelfTool key={item.name()} {item} /> }) }
                </div>
                <History />
            </div>
        </footer>
    }
}

/// Whether the fading of the drawing matters now.
fn has_scan(session: &Session) -> bool {
    let is_paper = matches!(session.step, Step::Sheets | Step::Site);
    let level = session.shown_level();
    !is_paper && level.is_some_and(|level| level.sheet.scan.is_some())
}

/// One thing on the shelf: a tool, or a tool with one kind of thing in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Item {
    Tool(Tool),
    Drop(DropKind),
    Opening(OpeningKind),
}

fn items(step: Step) -> Vec<Item> {
    let spread = |tool: &Tool| match tool {
        Tool::Drop => DropKind::ALL.map(Item::Drop).to_vec(),
        Tool::Opening => [OpeningKind::Door, OpeningKind::Window, OpeningKind::Cased]
            .map(Item::Opening)
            .to_vec(),
        tool => vec![Item::Tool(*tool)],
    };
    // Where there is no drawing on the table there is nothing to choose on it.
    match step {
        Step::Sheets | Step::Site => Vec::new(),
        _ => step.tools().iter().flat_map(spread).collect(),
    }
}

impl Item {
    fn name(self) -> String {
        match self {
            Self::Tool(tool) => tool.name().to_string(),
            Self::Drop(kind) => capital(kind.name()),
            Self::Opening(kind) => capital(kind.name()),
        }
    }

    fn icon(self) -> &'static str {
        match self {
            Self::Tool(tool) => icons::tool(tool),
            Self::Drop(kind) => icons::drop(kind),
            Self::Opening(kind) => icons::opening(kind),
        }
    }

    fn tool(self) -> Tool {
        match self {
            Self::Tool(tool) => tool,
            Self::Drop(_) => Tool::Drop,
            Self::Opening(_) => Tool::Opening,
        }
    }

    fn hand(self, hand: &Hand) -> Hand {
        match self {
            Self::Tool(_) => hand.clone(),
            Self::Drop(drop) => Hand {
                drop,
                ..hand.clone()
            },
            Self::Opening(kind) if hand.opening == kind => hand.clone(),
            Self::Opening(kind) => hand.clone().with_opening(kind),
        }
    }

    fn is_held(self, session: &Session) -> bool {
        let in_hand = match self {
            Self::Tool(_) => true,
            Self::Drop(kind) => session.hand.drop == kind,
            Self::Opening(kind) => session.hand.opening == kind,
        };
        session.tool == self.tool() && in_hand
    }
}

#[derive(Properties, PartialEq)]
struct ShelfToolProps {
    item: Item,
}

#[component]
fn ShelfTool(props: &ShelfToolProps) -> Html {
    let desk = use_desk();
    let item = props.item;
    let hand = item.hand(&desk.session.hand);
    let set = use_act(|hand| Act::Want(Intent::SetHand(hand)));
    let take = use_act(|tool| Act::Want(Intent::Take(tool)));
    let held = item.is_held(&desk.session);
    let onclick = Callback::from(move |_: MouseEvent| {
        set.emit(hand.clone());
        take.emit(item.tool());
    });
    html! {
        <button class="ShelfTool" type="button" aria-pressed={held.to_string()} {onclick}>
            <Icon lines={item.icon()} />
            <span>{ item.name() }</span>
        </button>
    }
}

/// Undo and redo, each saying what.
#[component]
fn History() -> Html {
    let desk = use_desk();
    let undo = use_act(|_: MouseEvent| Act::Want(Intent::Undo));
    let redo = use_act(|_: MouseEvent| Act::Want(Intent::Redo));
    let history = &desk.session.history;
    let words = history.undo_words().map(|words| format!("Undo: {words}"));
    html! {
        <div class="ShelfHistory">
            if let Some(words) = history.redo_words() {
                <button class="ShelfTool" type="button" onclick={redo}>
                    <Icon lines={icons::REDO} />
                    <span>{ format!("Redo: {words}") }</span>
                </button>
            }
            <button class="ShelfTool" type="button" disabled={words.is_none()} onclick={undo}>
                <Icon lines={icons::UNDO} />
                <span>{ words.unwrap_or_else(|| String::from("Undo")) }</span>
            </button>
        </div>
    }
}
