//! The fields of each page: filled from what was told, and read back.

use time::Date;

use crate::domain::intake::IntakePage;
use crate::domain::intake::answers::{
    FoodAndSleep, GoodMonth, HealthAnswers, History, Home, Incident, PageAnswers, Teeth, Tried, WeekAnswers,
};
use crate::domain::vocabulary::Word;
use crate::web::Form;
use crate::web::choices::{number, yes_no};
use crate::web::dogs::past_day;

/// The most characters of a short answer and of a long one.
const SHORT: usize = 200;
const LONG: usize = 1000;

/// The form of a page, filled from what was told. A page of incidents begins with an empty one.
pub fn filled(said: PageAnswers) -> Form {
    let form = Form::blank();
    match said {
        PageAnswers::Home(said) => form
            .with("adults", said.adults)
            .with("children", said.children.map_or("", Word::stored))
            .with("ages", said.ages)
            .with("animals", said.animals),
        PageAnswers::Dog(said) => {
            form.with("from", said.from).with("since", number(said.since)).with("before", said.before)
        }
        PageAnswers::Teeth(said) => form.with("ever", yes_no(said.ever)),
        PageAnswers::Tried(said) => form.with("tried", said.what).with("helped", said.helped),
        PageAnswers::Food(said) => form
            .with("main", said.main)
            .with("treats", said.treats)
            .with("allergies", said.allergies)
            .with("sleep", said.sleep),
        PageAnswers::Health(said) => form
            .with("vet", said.vet)
            .with("last_visit", number(said.last_visit))
            .with("medicines", said.medicines)
            .with("health", said.health),
        PageAnswers::Week(said) => {
            let form = form.with("hours_alone", number(said.hours_alone)).with("week", said.other);
            said.days.iter().fold(form, |form, day| form.with("days", day.stored()))
        }
        PageAnswers::Goal(said) => form.with("goal", said.goal),
    }
}

/// What the form of a page says; what is wrong with it is in the form.
pub fn read(page: IntakePage, form: &mut Form, today: Date) -> PageAnswers {
    match page {
        IntakePage::Home => PageAnswers::Home(Home {
            adults: form.text("adults", SHORT),
            children: form.word("children"),
            ages: form.text("ages", SHORT),
            animals: form.text("animals", SHORT),
        }),
        IntakePage::Dog => PageAnswers::Dog(History {
            from: form.text("from", SHORT),
            since: past_day(form, "since", today),
            before: form.text("before", LONG),
        }),
        IntakePage::Teeth => PageAnswers::Teeth(teeth(form)),
        IntakePage::Tried => {
            PageAnswers::Tried(Tried { what: form.text("tried", LONG), helped: form.text("helped", LONG) })
        }
        IntakePage::Food => PageAnswers::Food(FoodAndSleep {
            main: form.text("main", SHORT),
            treats: form.text("treats", SHORT),
            allergies: form.text("allergies", SHORT),
            sleep: form.text("sleep", SHORT),
        }),
        IntakePage::Health => PageAnswers::Health(HealthAnswers {
            vet: form.text("vet", SHORT),
            last_visit: past_day(form, "last_visit", today),
            medicines: form.text("medicines", SHORT),
            health: form.text("health", 500),
        }),
        IntakePage::Week => PageAnswers::Week(WeekAnswers {
            hours_alone: form.whole("hours_alone", "Longest alone", 0, 24),
            days: form.ticked("days"),
            other: form.text("week", LONG),
        }),
        IntakePage::Goal => PageAnswers::Goal(GoodMonth { goal: form.text("goal", LONG) }),
    }
}

fn teeth(form: &mut Form) -> Teeth {
    let incident = Incident {
        id: form.id("incident").unwrap_or_default(),
        happened: form.text("happened", SHORT),
        whom: form.text("whom", SHORT),
        place: form.text("place", SHORT),
        skin_broken: form.yes_no("skin_broken"),
        care: form.text("care", SHORT),
    };
    let ever = form.yes_no("ever");
    if !incident.is_blank() && ever == Some(false) {
        form.refuse("ever", "You say no, and tell of a time below. Choose yes, or empty the fields below.");
    }
    Teeth { ever: ever.or((!incident.is_blank()).then_some(true)), incidents: vec![incident] }
}
