//! Where a file that is named in a field comes to lie.

use std::path::{Path, PathBuf};

/// The whole path of a file as people read it: a bare name stands in the folder that the program was started
/// in, and the home folder is written ~.
pub fn lands_at(path: &Path) -> String {
    let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let home = directories::BaseDirs::new().map(|dirs| dirs.home_dir().to_owned());
    said(&whole, home.as_deref())
}

/// A whole path with ~ for the home folder.
fn said(whole: &Path, home: Option<&Path>) -> String {
    let below = home
        .filter(|home| home.parent().is_some())
        .and_then(|home| whole.strip_prefix(home).ok());
    match below {
        Some(below) => PathBuf::from("~").join(below).display().to_string(),
        None => whole.display().to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::{lands_at, said};
    use std::path::Path;

    #[test]
    fn the_home_folder_is_written_short_and_only_as_a_whole_folder() {
        let home = Some(Path::new("/home/ann"));
        assert_eq!(said(Path::new("/home/ann/bar/a.ron"), home), "~/bar/a.ron");
        assert_eq!(
            said(Path::new("/home/anna/a.ron"), home),
            "/home/anna/a.ron"
        );
        assert_eq!(said(Path::new("/srv/a.ron"), home), "/srv/a.ron");
        assert_eq!(
            said(Path::new("/srv/a.ron"), Some(Path::new("/"))),
            "/srv/a.ron"
        );
        assert_eq!(said(Path::new("/srv/a.ron"), None), "/srv/a.ron");
    }

    #[test]
    fn a_bare_name_is_told_with_a_folder() {
        let said = lands_at(Path::new("a.ron"));
        assert!(
            said.ends_with("/a.ron") && said.len() > "/a.ron".len(),
            "{said}"
        );
    }
}
