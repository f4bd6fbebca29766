//! What builder and owner agreed to, item by item, and the reply that waits to be taken in.

use std::rc::Rc;

use borewright_core::agreement::{Fit, Matter, NAME_CAUTION, Standing, tally, typed};
use borewright_core::desk::{Choice, Notice};
use borewright_core::file::link;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Item, Reply, Said};
use borewright_core::units::counted;
use yew::prelude::*;

use super::{Head, use_edit};
use crate::browser::address;
use crate::hooks::{use_act, use_desk, use_dispatcher, use_standings};
use crate::panels::best::WaitsForBest;
use crate::panels::icons;
use crate::parts::{Field, FieldKind, Press, PressKind};
use crate::state::{Act, Leaf, Visit};

type Stood = (Matter, Standing);

/// The slip of all agreements.
#[component]
pub fn AgreementsSlip() -> Html {
    let desk = use_desk();
    let standings = use_standings();
    let share = use_act(|()| Act::Lay(Some(Leaf::Share)));
    let is_new = desk.session.plan.replies.is_empty();
    html! {
        <>
            <Head title="Agreements" line="What builder and owner agreed to. An item that changed since is not yet agreed." />
            if let Some(reply) = &desk.reply { <Waiting reply={reply.clone()} /> }
            if is_new && desk.reply.is_none() {
                <p>{ "Nobody has replied yet. Whoever opens the link can agree to items or ask about them, and sends a reply link back. Open that link, or paste it here." }</p>
                <Press label="Share" icon={icons::LINK} onpress={share} />
            }
            <Paste />
            if !is_new {
                if desk.wants_better() { <WaitsForBest /> }
                <p role="status">{ counts(&standings) }</p>
                { group("Asked", &standings, |s| matches!(s, Standing::Asked(_))) }
                { group("Changed since", &standings, |s| matches!(s, Standing::Changed(_))) }
                { group("Answered in an earlier version", &standings, |s| matches!(s, Standing::Earlier(_))) }
                { group("Not yet agreed", &standings, |s| matches!(s, Standing::Open | Standing::Unsettled)) }
                { group("Agreed", &standings, |s| matches!(s, Standing::Agreed(_))) }
                <Replies />
            }
        </>
    }
}

/// Items that stand alike; nothing where there are none.
fn group(title: &'static str, standings: &[Stood], is_meant: fn(&Standing) -> bool) -> Html {
    let here = standings.iter().filter(|(_, stands)| is_meant(stands));
    let here: Vec<Stood> = here.cloned().collect();
    match here.is_empty() {
        true => html! {},
        false => html! { <Group {title} {here} /> },
    }
}

fn counts(standings: &[Stood]) -> String {
    let tally = tally(standings);
    let counts = format!(
        "{} of {} agreed, {} asked about, {} changed since, {} not yet answered.",
        tally.agreed,
        counted(standings.len(), "item"),
        tally.asked,
        tally.changed,
        tally.open
    );
    match tally.earlier {
        0 => counts,
        earlier => format!(
            "{counts} {earlier} answered in an earlier version of this program, to figures only."
        ),
    }
}

#[derive(Properties, PartialEq)]
struct WaitingProps {
    reply: Rc<Reply>,
}

/// A reply that came by link, to take in or to leave.
#[component]
fn Waiting(props: &WaitingProps) -> Html {
    let dispatcher = use_dispatcher();
    let reply = &props.reply;
    let onleave = Callback::from(move |()| {
        address::clear_fragment();
        dispatcher.dispatch(Act::Replied(None));
    });
    let asked = reply.answers.iter().filter(|a| a.said != Said::Agreed);
    let asked = asked.count();
    let said = format!(
        "{} agreed, {} asked.",
        reply.answers.len() - asked,
        counted(asked, "question")
    );
    html! {
        <div class="Strip" role="status">
            <p><b>{ format!("Reply from {}", signed(reply)) }</b></p>
            <p>{ said }</p>
            if let Some(code) = reply.version.code() { <p class="Quiet">{ format!("To version {code} of {}", reply.job) }</p> }
            <TakeIn reply={reply.clone()} ontaken={onleave.clone()} />
            <Press label="Leave it" kind={PressKind::Quiet} onpress={onleave} />
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct TakeInProps {
    reply: Rc<Reply>,
    /// Called once it is taken in.
    ontaken: Callback<()>,
}

/// How a reply fits the plan on the table, and the press that takes it in where it does.
#[component]
fn TakeIn(props: &TakeInProps) -> Html {
    let desk = use_desk();
    let standings = use_standings();
    let edit = use_edit();
    let (plan, reply) = (&desk.session.plan, &props.reply);
    let fit = use_memo(
        (Rc::as_ptr(plan), Rc::as_ptr(&standings), Rc::as_ptr(reply)),
        |_| Fit::of(plan, &standings, reply),
    );
    let onpress = {
        let (plan, reply, ontaken) = (plan.clone(), reply.clone(), props.ontaken.clone());
        Callback::from(move |()| {
            let taking = Edit::TakeReply((*reply).clone());
            // One that is refused stays, to be taken in once what is in its way is gone.
            let is_taken = plan.apply(&taking).is_ok();
            edit.emit(taking);
            if is_taken {
                ontaken.emit(());
            }
        })
    };
    if desk.wants_better() {
        return html! { <WaitsForBest /> };
    }
    html! {
        <>
            <p>{ fit.words(plan, reply) }</p>
            if fit.is_this() {
                if desk.session.read_only {
                    <p>{ "It can be taken in once this plan can be changed in this window." }</p>
                } else {
                    <Press label="Take it in" kind={PressKind::Main} {onpress} />
                }
            }
        </>
    }
}

/// "“Pat” (typed name, not verified), 2026-06-03, to revision 2".
fn signed(reply: &Reply) -> String {
    let (name, revision) = (typed(&reply.name), reply.revision);
    match reply.date.as_str() {
        "" => format!("{name} ({NAME_CAUTION}), to revision {revision}"),
        date => format!("{name} ({NAME_CAUTION}), {date}, to revision {revision}"),
    }
}

/// Takes a reply as text, for where its link opens somewhere else.
#[component]
fn Paste() -> Html {
    let dispatcher = use_dispatcher();
    let onset = Callback::from(move |text: String| {
        if text.trim().is_empty() {
            return;
        }
        let read = link::decode_text(&text).and_then(|bytes| link::read_reply(&bytes));
        dispatcher.dispatch(match read {
            Ok(reply) => Act::Replied(Some(Rc::new(reply))),
            Err(link::LinkError::NotALink) => Act::Say(Notice::refused(
                "This is not a reply. Paste the whole link that came back.",
                None,
            )),
            Err(error) => Act::Say(Notice::refused(error.to_string(), None)),
        });
    });
    html! { <Field label="Paste a reply link" kind={FieldKind::Line} value="" {onset} /> }
}

#[derive(Properties, PartialEq)]
struct GroupProps {
    title: AttrValue,
    here: Vec<Stood>,
}

/// Items under one heading.
#[component]
fn Group(props: &GroupProps) -> Html {
    let desk = use_desk();
    let line = |(matter, standing): &Stood| {
        let choice = choice(matter.item);
        let visit = Visit {
            choice,
            leaf: Some(Leaf::Agreements),
            at: choice.and_then(|choice| desk.session.position(choice)),
        };
        html! { <Line key={format!("{:?}", matter.item)} matter={matter.clone()} words={standing.words()} {visit} /> }
    };
    html! {
        <section aria-label={props.title.clone()}>
            <h3>{ format!("{}, {}", props.title, props.here.len()) }</h3>
            <ul class="Findings">{ for props.here.iter().map(line) }</ul>
        </section>
    }
}

fn choice(item: Item) -> Option<Choice> {
    match item {
        Item::Drop(id) => Some(Choice::Drop(id)),
        Item::Wall(id) => Some(Choice::Wall(id)),
        Item::Joists(id) => Some(Choice::Level(id)),
        Item::Closet => Some(Choice::Closet),
        Item::Date | Item::Job => None,
    }
}

#[derive(Properties, PartialEq)]
struct LineProps {
    matter: Matter,
    words: String,
    visit: Visit,
}

#[component]
fn Line(props: &LineProps) -> Html {
    let visit = props.visit;
    let onclick = use_act(move |_: MouseEvent| Act::Visit(visit));
    html! {
        <li class="FindingItem">
            <button type="button" class="FindingWhat" {onclick}
                aria-label={format!("See {} {}", props.matter.name, props.matter.what)}>
                <b class="Weight">{ &props.matter.name }</b>
                <span>{ &props.matter.what }</span>
            </button>
            <p>{ &props.words }</p>
        </li>
    }
}

/// Every reply taken in, each to be removed again.
#[component]
fn Replies() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let line = |reply: &Reply| {
        let gone = reply.clone();
        let onpress = edit.reform(move |()| Edit::RemoveReply(gone.clone()));
        html! {
            <li class="ListLine">
                <span>{ format!("{}: {}", signed(reply), counted(reply.answers.len(), "answer")) }</span>
                <Press label="Remove" kind={PressKind::Quiet} {onpress} />
            </li>
        }
    };
    html! {
        <section aria-label="Replies">
            <h3>{ "Replies" }</h3>
            <ul class="List">{ for desk.session.plan.replies.iter().map(line) }</ul>
        </section>
    }
}

#[derive(Properties, PartialEq)]
pub struct StandsProps {
    /// Which item.
    pub item: Item,
}

/// How one item stands, beside it; nothing as long as nobody replied.
#[component]
pub fn Stands(props: &StandsProps) -> Html {
    let desk = use_desk();
    if desk.session.plan.replies.is_empty() {
        return html! {};
    }
    html! { <StandsLine item={props.item} /> }
}

#[component]
fn StandsLine(props: &StandsProps) -> Html {
    let standings = use_standings();
    let found = standings.iter().find(|(m, _)| m.item == props.item);
    match found {
        Some((_, standing)) => html! { <p class="Stands">{ standing.words() }</p> },
        None => html! {},
    }
}
