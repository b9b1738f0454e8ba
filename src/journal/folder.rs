//! Where attempts and settings are kept when nobody says where.

use std::{env, path::PathBuf};

/// Where attempts are kept: in the data folder of whoever uses the program.
pub fn attempts_folder() -> PathBuf {
    data_folder().join("attempts")
}

/// Where the window's settings are kept: beside them, wherever the attempts of this run may be.
pub fn settings_file() -> PathBuf {
    data_folder().join("settings.ron")
}

/// The data folder by the custom of the system; failing that, a folder where the program was started.
fn data_folder() -> PathBuf {
    let set = |name: &str| env::var_os(name).filter(|it| !it.is_empty()).map(PathBuf::from);
    let data = if cfg!(windows) {
        set("APPDATA")
    } else if cfg!(target_os = "macos") {
        set("HOME").map(|it| it.join("Library").join("Application Support"))
    } else {
        set("XDG_DATA_HOME").or_else(|| set("HOME").map(|it| it.join(".local").join("share")))
    };
    data.unwrap_or_default().join("switchdrop")
}
