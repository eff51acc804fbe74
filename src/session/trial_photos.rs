//! Pictures of trials: kept beside the document, named in it.

use super::edit::{Edit, EditError};
use super::open_document::Session;
use super::trial_edit::TrialEdit;
use crate::model::{MAX_PHOTOS, Photo, TrialId};
use crate::store::{PhotoError, keep_photo};
use std::path::Path;

/// Why a picture was not attached; the document is as it was.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PhotoFailure {
    /// The file was refused.
    #[error(transparent)]
    File(#[from] PhotoError),
    /// The document refused.
    #[error(transparent)]
    Document(#[from] EditError),
    /// The trial has as many as it may have.
    #[error("a trial keeps at most {MAX_PHOTOS} pictures: detach one first")]
    TooMany,
}

impl Session {
    /// Copies a picture beside the document and names it in a trial, as one step of history; gives
    /// the name of the copy. The document needs a file first.
    pub fn attach_photo(
        &mut self,
        trial: TrialId,
        picture: &Path,
        caption: &str,
    ) -> Result<String, PhotoFailure> {
        let mut photos = self.photos_of(trial)?;
        if photos.len() >= MAX_PHOTOS {
            return Err(PhotoFailure::TooMany);
        }
        let caption = caption.to_owned();
        // What the document would refuse leaves no file behind.
        let file = "picture".to_owned();
        let trying = Photo { file, caption };
        let with = |photo: Photo| {
            let photos = photos.iter().cloned().chain([photo]).collect();
            Edit::Trial(TrialEdit::SetPhotos { trial, photos })
        };
        if let Some(error) = self.refusal(&with(trying.clone())) {
            return Err(error.into());
        }
        let document = self.path().ok_or(PhotoError::NoDocument)?;
        let file = keep_photo(document, picture)?;
        photos.push(Photo {
            file: file.clone(),
            ..trying
        });
        self.edit(&Edit::Trial(TrialEdit::SetPhotos { trial, photos }))?;
        Ok(file)
    }

    /// Takes a picture out of a trial, as one step of history; the file stays where it is.
    pub fn detach_photo(&mut self, trial: TrialId, place: usize) -> Result<(), EditError> {
        let mut photos = self.photos_of(trial)?;
        if place >= photos.len() {
            let what = "the picture".to_owned();
            return Err(EditError::Gone { what });
        }
        photos.remove(place);
        self.edit(&Edit::Trial(TrialEdit::SetPhotos { trial, photos }))
    }

    fn photos_of(&self, trial: TrialId) -> Result<Vec<Photo>, EditError> {
        let found = self.document().trial(trial);
        found
            .map(|(_, trial)| trial.photos.clone())
            .ok_or_else(|| EditError::Gone {
                what: "the trial".to_owned(),
            })
    }
}
