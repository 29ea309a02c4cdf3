//! Where a dog practises: a page to add, change or remove each.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;
use time::Date;

use crate::actions::keep_place::{add_place, keep_place};
use crate::actions::remove_place::remove_place;
use crate::app::App;
use crate::domain::scales;
use crate::ids::{DogId, PlaceId};
use crate::store::dog::Dog;
use crate::store::off_lead_permission::{self, OffLeadPermission};
use crate::store::place::{self, Place};
use crate::store::sign_in::SignedIn;
use crate::web::choices::{self, Choices, YES_NO, number, yes_no};
use crate::web::dogs::load;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, zones};

/// A place of the profile, with where the dog stands there off the lead.
#[derive(Debug)]
pub struct PlaceRow {
    /// The place.
    pub place: Place,
    /// Its latest off-lead permission.
    pub off_lead: Option<OffLead>,
}

/// A permission as it is read.
#[derive(Debug)]
pub struct OffLead {
    /// Whether it holds.
    pub holds: bool,
    /// Who granted it and when, or when and why it lapsed.
    pub words: String,
}

impl PlaceRow {
    /// Places with their permissions.
    pub fn all(places: Vec<Place>, permissions: &[OffLeadPermission], zone: &str, today: Date) -> Vec<Self> {
        let of = |place: &Place| permissions.iter().find(|permission| permission.place == place.id);
        places
            .into_iter()
            .map(|place| Self { off_lead: of(&place).map(|it| OffLead::of(it, zone, today)), place })
            .collect()
    }
}

impl OffLead {
    fn of(permission: &OffLeadPermission, zone: &str, today: Date) -> Self {
        let on = |at| zones::day(zones::local_date(at, zone), today);
        let words = match permission.lapsed_at {
            None => format!("granted by {}, {}", permission.granted_by, on(permission.granted_at)),
            Some(at) => format!("{}: {}", on(at), permission.lapsed_because),
        };
        Self { holds: permission.lapsed_at.is_none(), words }
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "dogs/place.html")]
pub(super) struct PlacePage {
    page: Page,
    pub(super) form: Form,
    dog: Dog,
    id: Option<PlaceId>,
    levels: Choices,
    yes_no: [(&'static str, &'static str); 2],
    off_lead: Option<OffLead>,
}
form_pages!(PlacePage);

impl PlacePage {
    fn off_lead_holds(&self) -> bool {
        self.off_lead.as_ref().is_some_and(|it| it.holds)
    }
}

fn page(who: &SignedIn, dog: Dog, id: Option<PlaceId>, form: Form) -> PlacePage {
    let title = if id.is_some() { "Change a place" } else { "Add a place" };
    let levels = choices::scale(&scales::DISTRACTION);
    PlacePage {
        page: Page::of(who, title, "caseload"),
        form,
        dog,
        id,
        levels,
        yes_no: YES_NO,
        off_lead: None,
    }
}

/// The page of a place as it is kept, with its off-lead permission.
pub(super) async fn kept(
    who: &mut SignedIn,
    dog: Dog,
    id: PlaceId,
    today: Date,
) -> Result<PlacePage, WebError> {
    let place = find(who, dog.id, id).await?;
    let permissions = off_lead_permission::of_dog(dog.id).read(&mut who.tx).await?;
    let off_lead = permissions.iter().find(|it| it.place == id).map(|it| OffLead::of(it, &dog.zone, today));
    Ok(PlacePage { off_lead, ..page(who, dog, Some(id), filled(&place)) })
}

fn read(form: &mut Form, dog: DogId, id: PlaceId) -> Place {
    let name = form.required("name", 120, "Enter what the household calls the place.");
    let distraction = form.whole("distraction", "How distracting it usually is", 1, 5);
    if distraction.is_none() {
        form.refuse("distraction", "Choose how distracting the place usually is.");
    }
    let distraction = distraction.unwrap_or(5);
    let near_road = form.yes_no("near_road");
    let road_metres = form.whole("road_metres", "How far to the road", 0, 2000);
    Place { id, dog, name, distraction, secure: form.yes_no("secure"), near_road, road_metres }
}

fn filled(place: &Place) -> Form {
    Form::blank()
        .with("name", &place.name)
        .with("distraction", place.distraction.to_string())
        .with("secure", yes_no(place.secure))
        .with("near_road", yes_no(place.near_road))
        .with("road_metres", number(place.road_metres))
}

async fn find(who: &mut SignedIn, dog: DogId, id: PlaceId) -> Result<Place, WebError> {
    place::find(dog, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)
}

/// The page for a new one.
pub async fn new(State(app): State<App>, At(dog): At<DogId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = load(&mut who, dog).await?;
    let id: PlaceId = app.moment().id();
    Ok(page(&who, dog, None, Form::blank().with("id", id.to_string())).into_response())
}

/// Adds one.
pub async fn add(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let moment = app.moment();
    let new = form.id("id").unwrap_or_else(|| moment.id());
    let (id, new) = (dog.id, read(&mut form, dog.id, new));
    let page = page(&who, dog, None, form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = add_place(who.tx, &who.actor, &new, &moment).await;
    page.settle(done, &format!("/dogs/{id}/profile?notice=saved"))
}

/// The page of one.
pub async fn show(
    State(app): State<App>,
    At((dog, id)): At<(DogId, PlaceId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    Ok(kept(&mut who, dog, id, today).await?.into_response())
}

/// Changes one.
pub async fn edit(
    State(app): State<App>,
    At((dog, id)): At<(DogId, PlaceId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let changed = read(&mut form, dog.id, id);
    let page = PlacePage { form, ..kept(&mut who, dog, id, today).await? };
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_place(who.tx, &who.actor, &changed, &app.moment()).await;
    page.settle(done, &format!("/dogs/{}/profile?notice=saved", changed.dog))
}

/// Removes one, as long as no record names it.
pub async fn remove(
    State(app): State<App>,
    At((dog, id)): At<(DogId, PlaceId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let (dog_id, moment) = (dog.id, app.moment());
    let today = zones::local_date(moment.at, &dog.zone);
    let page = kept(&mut who, dog, id, today).await?;
    let done = remove_place(who.tx, &who.actor, dog_id, id, &moment).await;
    page.settle(done, &format!("/dogs/{dog_id}/profile?notice=removed"))
}
