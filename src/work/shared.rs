//! Something large that many copies of the work have alike: copied only when one of them changes it.

use std::{
    ops::{Deref, DerefMut},
    sync::Arc,
};

#[derive(Debug, Clone)]
pub(super) struct Shared<T>(Arc<T>);

impl<T> From<T> for Shared<T> {
    fn from(it: T) -> Self {
        Self(Arc::new(it))
    }
}

impl<T> Deref for Shared<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T: Clone> DerefMut for Shared<T> {
    fn deref_mut(&mut self) -> &mut T {
        Arc::make_mut(&mut self.0)
    }
}
