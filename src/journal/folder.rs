//! Where attempts are kept when nobody says where.

use std::{env, path::PathBuf};

/// The data folder of whoever uses the program, by the custom of the system; failing that, a folder where it was started.
pub fn attempts_folder() -> PathBuf {
    let set = |name: &str| env::var_os(name).filter(|it| !it.is_empty()).map(PathBuf::from);
    let data = if cfg!(windows) {
        set("APPDATA")
    } else if cfg!(target_os = "macos") {
        set("HOME").map(|it| it.join("Library").join("Application Support"))
    } else {
        set("XDG_DATA_HOME").or_else(|| set("HOME").map(|it| it.join(".local").join("share")))
    };
    data.unwrap_or_default().join("switchdrop").join("attempts")
}
