//! An exercise as a person would write it down.

use ron::ser::PrettyConfig;

use super::{check::parse, placed::options, tables::Exercise};

/// The exercise as a scenario over several lines, with nothing left to vary. Drawn with any seed, it is this exercise.
///
/// # Errors
/// If RON cannot write it, which does not happen with a checked exercise.
pub fn pretty(exercise: &Exercise) -> Result<String, ron::Error> {
    let unreadable = || ron::Error::Message("an exercise that was checked can't be read again".to_owned());
    let file = parse(exercise.text()).map_err(|_| unreadable())?;
    // Deep enough that each location, cable and connection has its own line.
    let config = PrettyConfig::new().struct_names(true).new_line("\n").depth_limit(2);
    Ok(format!("{}\n", options().to_string_pretty(&file, config)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{SHIPPED, Seed, draw};

    #[test]
    fn what_is_written_down_is_the_same_exercise() {
        for (id, text) in SHIPPED {
            let exercise = draw(text, Seed(7)).unwrap();
            let again = draw(&pretty(&exercise).unwrap(), Seed(8)).unwrap();
            assert_eq!(again.text(), exercise.text(), "{id}");
        }
    }
}
