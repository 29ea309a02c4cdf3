//! Pages with a form: shown again, with everything typed, where something is not right.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::{Done, Refusal};
use crate::web::{Answer, Form, Page};

/// A page with one form.
pub trait FormPage: IntoResponse + Sized {
    /// The frame and the form.
    fn parts(&mut self) -> (&mut Page, &mut Form);

    /// The page again, with its errors.
    fn again(mut self) -> Response {
        self.parts().0.error = true;
        (StatusCode::UNPROCESSABLE_ENTITY, self).into_response()
    }

    /// On to `to` where the action was done; the page again where it refused a field.
    fn settle<T>(mut self, done: Done<T>, to: &str) -> Answer {
        match done {
            Ok(_) => Ok(Redirect::to(to).into_response()),
            Err(Refusal::Field { field, message }) => {
                self.parts().1.refuse(field, message);
                Ok(self.again())
            }
            Err(other) => Err(other.into()),
        }
    }
}

/// Implements [`FormPage`] for structs with `page` and `form`.
macro_rules! form_pages {
    ($($name:ident),*) => {$(
        impl $crate::web::form_page::FormPage for $name {
            fn parts(&mut self) -> (&mut $crate::web::Page, &mut $crate::web::Form) {
                (&mut self.page, &mut self.form)
            }
        }
    )*};
}
pub(in crate::web) use form_pages;
