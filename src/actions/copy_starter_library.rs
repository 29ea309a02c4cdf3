//! Copies the starter library into a new practice, which may rewrite it from then on.

use crate::actions::Done;
use crate::clock::Moment;
use crate::domain::dates::counted;
use crate::domain::starter_library::{self, StarterExercise, StarterStep};
use crate::ids::ExerciseId;
use crate::store::Tx;
use crate::store::exercise::{self, Exercise};
use crate::store::step::{self, Step};

/// Copies every entry with its ladder, inside the transaction that sets the practice up.
pub async fn copy_starter_library(tx: &mut Tx, moment: &Moment) -> Done<()> {
    let mut steps = Vec::new();
    for entry in starter_library::all() {
        let id: ExerciseId = moment.id();
        exercise::add(tx, &copied(entry, id)).await?;
        steps.extend((1..).zip(entry.steps).map(|(position, step)| rung(step, id, position, moment)));
    }
    step::add_all(tx, &steps).await?;
    Ok(())
}

/// Puts one entry with its ladder on the shelf, for a plan that needs it.
pub(super) async fn put_on_shelf(tx: &mut Tx, entry: &StarterExercise, moment: &Moment) -> Done<ExerciseId> {
    let id: ExerciseId = moment.id();
    exercise::add(tx, &copied(entry, id)).await?;
    let rungs = (1..).zip(entry.steps);
    let steps: Vec<Step> = rungs.map(|(position, step)| rung(step, id, position, moment)).collect();
    step::add_all(tx, &steps).await?;
    Ok(id)
}

fn copied(entry: &StarterExercise, id: ExerciseId) -> Exercise {
    Exercise {
        id,
        kind: entry.kind,
        name: entry.name.to_owned(),
        purpose: entry.purpose.to_owned(),
        owner_why: entry.owner_why.to_owned(),
        criterion: entry.criterion.to_owned(),
        set_up: entry.set_up.to_owned(),
        delivery: entry.delivery.to_owned(),
        equipment_note: entry.equipment_note.to_owned(),
        line: entry.line,
        clip: entry.clip,
        energy: entry.energy,
        impact: entry.impact,
        class: entry.class,
        outcome: entry.outcome,
        cool_down_minutes: entry.cool_down_minutes.into(),
        cool_down_way: entry.cool_down_way.to_owned(),
        // nothing is counted where the shelf says 0; the column starts at 1
        usual_attempts: i16::from(entry.usual_attempts).max(1),
        usual_times_a_week: i16::from(entry.usual_times_a_week).max(1),
        caution: entry.caution.to_owned(),
        source: entry.source.to_owned(),
        archived_at: None,
    }
}

fn rung(step: &StarterStep, exercise: ExerciseId, position: i16, moment: &Moment) -> Step {
    Step {
        id: moment.id(),
        exercise,
        position,
        name: step.name.to_owned(),
        criterion: step.criterion.to_owned(),
        distance: metres(step.distance),
        duration: seconds(step.duration),
        distraction: step.distraction.into(),
    }
}

/// "3 metres"; empty where distance is no part of the step.
fn metres(distance: u16) -> String {
    if distance == 0 { String::new() } else { counted(distance.into(), "metre", "metres") }
}

/// "10 seconds", "2 minutes"; empty where duration is no part of the step.
fn seconds(duration: u16) -> String {
    match duration {
        0 => String::new(),
        whole if whole % 60 == 0 => counted((whole / 60).into(), "minute", "minutes"),
        other => counted(other.into(), "second", "seconds"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_said_in_the_unit_that_people_use() {
        assert_eq!((metres(0), metres(1), metres(8)), (String::new(), "1 metre".into(), "8 metres".into()));
        assert_eq!((seconds(0), seconds(45)), (String::new(), "45 seconds".into()));
        assert_eq!(
            (seconds(60), seconds(90), seconds(300)),
            ("1 minute".into(), "90 seconds".into(), "5 minutes".into())
        );
    }
}
