//! The ladder in an entry's form: one row a step, added and moved without JavaScript.

use crate::clock::Moment;
use crate::ids::{ExerciseId, StepId};
use crate::store::step::Step;
use crate::web::Form;
use crate::web::library::ladder_csv::Row;

/// The most steps a ladder has.
pub const MOST: usize = 12;
/// How many empty rows a new entry starts with.
pub const AT_FIRST: usize = 4;

/// The fields of a row.
const FIELDS: [&str; 7] = ["id", "name", "criterion", "distance", "duration", "distraction", "remove"];

/// A row's number and the names of its fields, for the template.
#[derive(Debug)]
pub struct RowNames {
    /// From 1.
    pub number: usize,
    /// Whether the step is kept already.
    pub is_kept: bool,
    /// Whether its fields are open: something in it is wrong, or it is the first empty one.
    pub open: bool,
    /// What it is called in the form, empty for a new one.
    pub called: String,
    /// Its id, empty for a new one.
    pub id_value: String,
    /// The field of its id.
    pub id: String,
    /// The field of its name.
    pub name: String,
    /// The field of its criterion.
    pub criterion: String,
    /// The field of its distance.
    pub distance: String,
    /// The field of its duration.
    pub duration: String,
    /// The field of its distraction.
    pub distraction: String,
    /// The field of the tick that removes it.
    pub remove: String,
}

fn field(number: usize, what: &str) -> String {
    format!("step-{number}-{what}")
}

/// How many rows the form holds.
fn count(form: &Form) -> usize {
    let holds = |number| FIELDS.iter().any(|what| !form.values(&field(number, what)).is_empty());
    (1..=MOST).take_while(|number| holds(*number)).count()
}

/// The rows of a form, for the template.
pub fn names(form: &Form) -> Vec<RowNames> {
    let called = |number| form.value(&field(number, "name")).trim().to_owned();
    let wrong = |number| FIELDS.iter().any(|what| form.error(&field(number, what)).is_some());
    let empty = (1..=count(form)).find(|number| called(*number).is_empty());
    let row = |number| {
        let id_value = form.value(&field(number, "id")).to_owned();
        RowNames {
            number,
            is_kept: !id_value.is_empty(),
            open: empty == Some(number) || wrong(number),
            called: called(number),
            id_value,
            id: field(number, "id"),
            name: field(number, "name"),
            criterion: field(number, "criterion"),
            distance: field(number, "distance"),
            duration: field(number, "duration"),
            distraction: field(number, "distraction"),
            remove: field(number, "remove"),
        }
    };
    (1..=count(form)).map(row).collect()
}

/// The form with one more empty row, while there is room.
pub fn with_one_more(form: Form) -> Form {
    let rows = count(&form);
    if rows >= MOST { form } else { with_row(form, rows + 1, [""; 5]) }
}

/// The form with a row filled in.
fn with_row(form: Form, number: usize, values: [&str; 5]) -> Form {
    let fields = FIELDS.into_iter().filter(|what| !["id", "remove"].contains(what));
    fields.zip(values).fold(form, |form, (what, value)| form.with(&field(number, what), value))
}

/// The form with the steps of an entry.
pub fn filled(form: Form, steps: &[Step]) -> Form {
    let form = copied(form, steps);
    (1..).zip(steps).fold(form, |form, (number, step)| form.with(&field(number, "id"), step.id.to_string()))
}

/// The form with the same steps as new ones.
pub fn copied(form: Form, steps: &[Step]) -> Form {
    (1..).zip(steps).fold(form, |form, (number, step)| {
        let level = step.distraction.to_string();
        with_row(form, number, [&*step.name, &*step.criterion, &*step.distance, &*step.duration, &*level])
    })
}

/// Puts the steps of a table into the form: one that has the name of a row takes its place, the others go into the
/// first rows that are empty and new. The table is forgotten then. Where there is no room, nothing is put.
pub fn with_table(form: &mut Form, rows: &[Row]) -> Result<(), Vec<String>> {
    let mut filled = form.clone();
    for row in rows {
        let all = count(&filled);
        let said = |number: usize, what: &str| filled.value(&field(number, what)).trim().to_owned();
        let same = (1..=all).find(|number| said(*number, "name") == row[0] && !row[0].is_empty());
        let is_free = |number: &usize| {
            ["id", "name", "criterion", "distance", "duration"]
                .iter()
                .all(|what| said(*number, what).is_empty())
        };
        let number = same.or_else(|| (1..=all).find(is_free)).unwrap_or(all + 1);
        if number > MOST {
            return Err(vec![format!("With the steps that are here already there are more than {MOST}.")]);
        }
        for what in FIELDS.into_iter().filter(|what| !["id", "remove"].contains(what)) {
            filled.forget(&field(number, what));
        }
        filled = with_row(filled, number, std::array::from_fn(|n| row[n].as_str()));
    }
    filled.forget("csv");
    *form = filled;
    Ok(())
}

/// The form with a row and the one above it changed for each other.
pub fn moved_up(mut form: Form, number: usize) -> Form {
    if number < 2 || number > count(&form) {
        return form;
    }
    for what in FIELDS {
        let (upper, lower) = (field(number - 1, what), field(number, what));
        let (above, below) = (form.value(&upper).to_owned(), form.value(&lower).to_owned());
        form.forget(&upper);
        form.forget(&lower);
        form = form.with(&upper, below).with(&lower, above);
    }
    form
}

/// The steps that the form says, in order. Empty new rows and rows ticked to be removed are left out; a step that
/// is none of `known` is refused.
pub fn read(form: &mut Form, exercise: ExerciseId, known: &[Step], moment: &Moment) -> Vec<Step> {
    let mut steps = Vec::new();
    for number in 1..=count(form) {
        let id: Option<StepId> = form.id(&field(number, "id"));
        let is_empty = ["name", "criterion", "distance", "duration"]
            .iter()
            .all(|what| form.value(&field(number, what)).trim().is_empty());
        if form.tick(&field(number, "remove")) || (id.is_none() && is_empty) {
            continue;
        }
        if id.is_some_and(|id| known.iter().all(|step| step.id != id)) {
            form.refuse("steps", "A step of this form is not in the library any more. Open the page again.");
        }
        let level = form.whole(&field(number, "distraction"), &format!("Distraction of step {number}"), 1, 5);
        if level.is_none() {
            form.refuse(
                &field(number, "distraction"),
                format!("Choose how distracting the place of step {number} is."),
            );
        }
        steps.push(Step {
            id: id.unwrap_or_else(|| moment.id()),
            exercise,
            position: i16::try_from(steps.len() + 1).unwrap_or(i16::MAX),
            name: form.required(&field(number, "name"), 160, &format!("Enter a name for step {number}.")),
            criterion: form.required(
                &field(number, "criterion"),
                1000,
                &format!("Enter what earns the marker on step {number}."),
            ),
            distance: form.text(&field(number, "distance"), 120),
            duration: form.text(&field(number, "duration"), 120),
            distraction: level.unwrap_or(1),
        });
    }
    steps
}

/// The kept steps that are ticked to be removed.
pub fn removed(form: &mut Form) -> Vec<StepId> {
    let rows = 1..=count(form);
    let ticked: Vec<usize> = rows.filter(|n| form.tick(&field(*n, "remove"))).collect();
    ticked.into_iter().filter_map(|number| form.id(&field(number, "id"))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clock::{Clock, Ids};
    use uuid::Uuid;

    fn kept(number: u128, name: &str) -> Step {
        Step {
            id: StepId(Uuid::from_u128(number)),
            exercise: ExerciseId(Uuid::from_u128(99)),
            position: 1,
            name: name.to_owned(),
            criterion: "Looks".to_owned(),
            distance: String::new(),
            duration: String::new(),
            distraction: 2,
        }
    }

    fn said(form: &mut Form, known: &[Step]) -> Vec<Step> {
        let moment = Moment::of(&Clock::System, &Ids::counting_from(1));
        read(form, ExerciseId(Uuid::from_u128(99)), known, &moment)
    }

    #[test]
    fn steps_keep_their_ids_when_they_change_places() {
        let known = [kept(1, "At home"), kept(2, "In the garden")];
        let mut form = moved_up(with_one_more(filled(Form::blank(), &known)), 2);
        let steps = said(&mut form, &known);
        assert!(form.is_fine());
        let order: Vec<_> = steps.iter().map(|step| (step.position, step.id, step.name.as_str())).collect();
        assert_eq!(order, [(1, known[1].id, "In the garden"), (2, known[0].id, "At home")]);
    }

    #[test]
    fn a_row_half_filled_says_what_is_open() {
        let mut form = Form::blank();
        form = with_row(form, 1, ["At home", "", "", "", ""]);
        said(&mut form, &[]);
        assert!(form.error("step-1-criterion").is_some() && form.error("step-1-distraction").is_some());
    }

    #[test]
    fn a_step_of_another_entry_is_refused() {
        let mut form = filled(Form::blank(), &[kept(7, "Elsewhere")]);
        said(&mut form, &[kept(1, "At home")]);
        assert!(form.error("steps").is_some());
    }

    #[test]
    fn no_ladder_grows_past_its_most() {
        let form = (0..MOST + 3).fold(Form::blank(), |form, _| with_one_more(form));
        assert_eq!(names(&form).len(), MOST);
    }
}
