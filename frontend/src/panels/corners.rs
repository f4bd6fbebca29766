//! What lies on the sheet at its edges: levels, zoom, scale bar, notices, the first words.

use borewright_core::desk::{Choice, Intent, Notice, NoticeKind, Step, View};
use borewright_core::plan::Level;
use borewright_core::units::Units;
use yew::prelude::*;

use super::examples::Examples;
use super::icons;
use super::slip::save;
use crate::browser::{address, assets, focus};
use crate::hooks::jobs::ask_for;
use crate::hooks::{use_act, use_beside, use_desk, use_opening};
use crate::parts::{FilePress, Icon, Press, PressKind};
use crate::state::{Act, Desk, Keeping, Place};

/// Everything at the edges of the sheet.
#[component]
pub fn Corners() -> Html {
    let desk = use_desk();
    html! {
        <>
            <Levels />
            <Zoom />
            if is_to_scale(&desk) { { scale_bar(&desk.view, desk.session.plan.units) } }
            if is_blank(&desk) { <Start /> }
            if desk.session.read_only { <FromLink /> }
            <Unkept />
            <Waiting />
            <Saying />
        </>
    }
}

/// The levels; a second tap on the one shown opens its slip.
#[component]
fn Levels() -> Html {
    let desk = use_desk();
    let show = use_act(|id| Act::Want(Intent::ShowLevel(id)));
    let look = use_act(|id| Act::Want(Intent::Choose(Some(Choice::Level(id)))));
    let chip = |level: &Level| {
        let (id, is_shown) = (level.id, level.id == desk.session.level);
        let onclick = if is_shown { look.clone() } else { show.clone() };
        html! {
            <button key={id.0} type="button" class="LevelChip" aria-pressed={is_shown.to_string()}
                aria-label={format!("Level {}", level.name)} onclick={onclick.reform(move |_: MouseEvent| id)}>
                { &level.name }
            </button>
        }
    };
    html! {
        <div class="Corner" data-at="levels" role="group" aria-label="Levels">
            { for desk.session.plan.levels.iter().map(chip) }
        </div>
    }
}

#[component]
fn Zoom() -> Html {
    let zoom = use_act(|factor| Act::Zoom(None, factor));
    let whole = use_act(|_: MouseEvent| Act::ShowAll);
    let press = |label: &'static str, lines: &'static str, onclick: Callback<MouseEvent>| {
        html! {
            <button type="button" class="ZoomPress" aria-label={label} {onclick}><Icon {lines} /></button>
        }
    };
    html! {
        <div class="Corner" data-at="zoom" role="group" aria-label="Size of the drawing">
            { press("Smaller", icons::SMALLER, zoom.reform(|_| 0.8)) }
            { press("Larger", icons::LARGER, zoom.reform(|_| 1.25)) }
            { press("Show all of it", icons::WHOLE, whole) }
        </div>
    }
}

/// A bar of a round length, about a tenth of the sheet wide.
fn scale_bar(view: &View, units: Units) -> Html {
    let (lengths, unit): (&[f64], f64) = match units {
        Units::Imperial => (&[1.0, 2.0, 5.0, 10.0, 20.0, 50.0], 304.8),
        Units::Metric => (&[0.5, 1.0, 2.0, 5.0, 10.0, 20.0], 1000.0),
    };
    let fits = |length: &&f64| **length * unit / view.scale <= 150.0;
    let length = lengths
        .iter()
        .rev()
        .find(fits)
        .or(lengths.first())
        .copied()
        .unwrap_or(1.0);
    let width = length * unit / view.scale;
    let words = format!(
        "{length} {}",
        if units == Units::Imperial { "ft" } else { "m" }
    );
    html! {
        <svg class="ScaleBar" width={(width + 70.0).to_string()} height="22" aria-hidden="true">
            <path d={format!("M1 6V16M1 11H{width}M{} 8V14M{width} 6V16", width / 2.0)} />
            <text x={(width + 8.0).to_string()} y="16">{ words }</text>
        </svg>
    }
}

/// A picture whose scale nobody has set yet has no lengths to show.
fn is_to_scale(desk: &Desk) -> bool {
    let sheet = desk.session.shown_level().map(|level| &level.sheet);
    sheet.is_none_or(|sheet| sheet.scan.is_none() || sheet.placing.scaled)
}

fn is_blank(desk: &Desk) -> bool {
    let level = desk.session.shown_level();
    let nothing = level.is_some_and(|level| level.walls.is_empty() && level.sheet.scan.is_none());
    nothing && desk.session.draft.is_none() && desk.session.step == Step::Drawing
}

/// The first words on an empty sheet.
#[component]
fn Start() -> Html {
    let onfile = use_opening();
    let trace = use_act(|()| Act::Want(Intent::GoTo(Step::Framing)));
    html! {
        <div class="Start">
            <p>{ "A sketch, a print, a photo of one: whatever drawing there is. Choose it, drop it here, or paste it." }</p>
            <FilePress label="Open a drawing" icon={icons::DRAWING} {onfile}
                accept="image/png,image/jpeg,image/webp" />
            <Press label="Trace without a drawing" kind={PressKind::Quiet} onpress={trace} />
            <Examples kind={PressKind::Quiet} />
        </div>
    }
}

/// What stands over a plan that is only looked at.
#[component]
fn FromLink() -> Html {
    let desk = use_desk();
    let take = use_act(|()| {
        address::clear_fragment();
        Act::Want(Intent::TakeOver)
    });
    let read = use_act(|()| Act::Read(true));
    let elsewhere = matches!(desk.place, Place::Elsewhere(_));
    let ask = {
        let id = desk.place.id().map(|id| id.to_string());
        use_act(move |()| {
            id.iter().cloned().for_each(ask_for);
            let text = "The other window is asked for this job. If it does not answer, close it.";
            Act::Say(Notice::done(text))
        })
    };
    let words = match elsewhere {
        true => String::from("Open in another window; here it is to look at."),
        false => format!("From {}, to look at.", assets::origin()),
    };
    html! {
        <div class="FromLink" role="status">
            <span>{ words }</span>
            if elsewhere {
                <Press label="Change it here" onpress={ask} />
            } else {
                <Press label="Read and answer" onpress={read} />
            }
            <Press label="Take over as a copy" kind={PressKind::Main} onpress={take} />
        </div>
    }
}

/// What stands over a plan that this device does not keep, with the way out.
#[component]
pub fn Unkept() -> Html {
    let desk = use_desk();
    let Keeping::Failed(sentence) = &desk.keeping else {
        return html! {};
    };
    let onpress = {
        let desk = desk.clone();
        Callback::from(move |()| save(&desk))
    };
    html! {
        <div class="Unkept" role="alert">
            <p>{ sentence }</p>
            <Press label="Save it to a file now" {onpress} />
        </div>
    }
}

/// Asks before something takes the place of a plan that is in this window alone.
#[component]
pub fn Displacing() -> Html {
    let desk = use_desk();
    let answer = use_act(Act::Displace);
    if desk.waits.is_none() {
        return html! {};
    }
    let onsave = {
        let desk = desk.clone();
        Callback::from(move |()| save(&desk))
    };
    let words = format!(
        "{} is in this window alone, and would be gone.",
        desk.session.plan.title
    );
    html! {
        <div class="Displacing" role="alertdialog" aria-label="Before it is gone">
            <p>{ words }</p>
            <Press label="Save it to a file first" kind={PressKind::Main} onpress={onsave} />
            <Press label="Go on without it" onpress={answer.reform(|()| true)} />
            <Press label="Stay with it" onpress={answer.reform(|()| false)} />
        </div>
    }
}

#[component]
fn Waiting() -> Html {
    let desk = use_desk();
    let Some(wait) = &desk.wait else {
        return html! {};
    };
    let value = wait.done.map(|done| done.to_string());
    html! {
        <div class="Waiting" role="status">
            <span>{ &wait.words }</span>
            <progress max="100" {value} />
        </div>
    }
}

/// One sentence about what was just refused or done.
#[component]
pub fn Saying() -> Html {
    let desk = use_desk();
    let close = use_act(|_: MouseEvent| Act::Want(Intent::DismissNotice));
    let node = use_node_ref();
    use_beside(&node, place(&desk));
    let Some(notice) = &desk.session.notice else {
        return html! {};
    };
    let (kind, role) = match notice.kind {
        NoticeKind::Refused => ("refused", "alert"),
        NoticeKind::Done => ("done", "status"),
    };
    html! {
        <div class="Notice" ref={node} data-kind={kind} {role}>
            <p>{ &notice.text }</p>
            <button type="button" class="Small" aria-label="Put this away" onclick={close}>
                <Icon lines={icons::CLOSE} />
            </button>
        </div>
    }
}

/// Where the sentence is about, in pixels of the table: on the sheet, or at the field just filled.
fn place(desk: &Desk) -> Option<(i32, i32)> {
    let notice = desk.session.notice.as_ref()?;
    let at = match notice.at {
        Some(at) => {
            let at = desk.view.to_screen(at.pos());
            (at.x, at.y)
        }
        None if notice.kind == NoticeKind::Refused => focus::foot_of_field(".Table")?,
        None => return None,
    };
    Some((at.0.round() as i32, at.1.round() as i32))
}
