//! Undo over hundreds of steps, whose copies of the work are not all kept.

use std::sync::Arc;

use switchdrop::{
    attempt::Attempt,
    exercise::{Seed, draw, shipped},
    trade::colour::Colour,
    work::{Action, Refused},
};

/// Two hundred steps, all taken back, all done again, and to and fro in between: at each step the work is as it was written down when the
/// step was first done.
#[test]
fn every_step_comes_back_as_it_was() {
    const STEPS: usize = 200;
    let exercise = Arc::new(draw(shipped("one-way-rose").expect("it is shipped"), Seed(4)).expect("an exercise"));
    let lamp = exercise.lamps.rows()[0].address.clone();
    let covered = exercise.locations.iter().find(|it| it.kind.has_cover()).expect("a box").id.clone();
    let mut attempt = Attempt::new(exercise);
    let mut states = vec![format!("{:?}", attempt.work())];
    for number in 0..STEPS {
        let action = match number % 4 {
            0 => Action::RemoveLamp { lamp: lamp.clone() },
            1 => Action::MakeUp { location: covered.clone(), colour: Colour::Blue },
            2 => Action::FitLamp { lamp: lamp.clone() },
            _ => Action::MakeUp { location: covered.clone(), colour: Colour::Brown },
        };
        attempt.act(action).expect("done");
        states.push(format!("{:?}", attempt.work()));
    }
    let mut at = STEPS;
    let back = (0..=STEPS).map(|_| false);
    let forth = (0..=STEPS).map(|_| true);
    let to_and_fro = (0..4 * STEPS).map(|it| it % 7 >= 4);
    for forward in back.chain(forth).chain(to_and_fro) {
        if forward && at == STEPS {
            assert_eq!(attempt.act(Action::Redo), Err(Refused::NothingToRedo));
        } else if !forward && at == 0 {
            assert_eq!(attempt.act(Action::Undo), Err(Refused::NothingToUndo));
        } else {
            attempt.act(if forward { Action::Redo } else { Action::Undo }).expect("done");
            at = if forward { at + 1 } else { at - 1 };
            assert_eq!(format!("{:?}", attempt.work()), states[at], "step {at}");
        }
    }
}
