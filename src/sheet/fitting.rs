//! How large figures are drawn and which sections begin a page: what hangs on where things stand.
//!
//! The typesetter can be asked where something stands, but it gives up after five attempts, and each
//! figure that changes its size moves the ones below it. So the pages are set with sizes that are
//! given; then where everything stands is read off, and they are set again until no size changes.
//! Each decision hangs on nothing but what stands above it: after so many rounds the first so many
//! decisions can change no more, and it ends.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use typst::foundations::{NativeElement, Selector};
use typst::introspection::{Introspector, MetadataElem};

use typst_layout::PagedDocument;

/// Space above and below the text, points; the template has the same 19 mm.
const MARGIN: f64 = 19.0 * MM;
const MM: f64 = 72.0 / 25.4;
/// What a heading at the head of a page keeps clear above it, and its figure around it, at most.
const AROUND_HEADING: f64 = 16.0;
/// Left free under a figure, so that rounding never pushes it off the page.
const SPARE: f64 = 2.0 * MM;
/// How far down a page, of its height, a section still goes on with it.
const BEGUN: f64 = 0.45;
/// How small a figure may become to stand on the page that has been begun.
const SMALLER: f64 = 0.72;
/// The same where that page would else stay as good as empty, down to this part of its height.
const MUCH_SMALLER: f64 = 0.5;
const EMPTY: f64 = 0.4;
/// Sizes that are tried.
const SIZES: [f64; 11] = [1.0, 0.95, 0.9, 0.85, 0.8, 0.76, 0.72, 0.66, 0.6, 0.55, 0.5];
/// Of a figure that no page holds even so.
const LEAST: f64 = 0.4;

/// What was decided, as the template reads it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct Fitting {
    /// Of figures, by the names of their files: what part of its own size each is drawn in.
    sizes: BTreeMap<String, f64>,
    /// Sections that begin a page, by their places.
    breaks: Vec<usize>,
}

/// A place in the pages, as the template marks it.
#[derive(Deserialize)]
#[serde(tag = "is", rename_all = "lowercase")]
enum Mark {
    /// Before a section that would like a page of its own.
    Section { place: usize },
    /// Before a figure and the heading that goes with it to the next page.
    Room { file: String },
    /// The figure itself: how high picture and words are at its own size, points.
    Figure {
        file: String,
        picture: f64,
        words: f64,
    },
}

/// A mark with its page and how far down it stands, points.
struct Place {
    mark: Mark,
    page: usize,
    down: f64,
}

impl Fitting {
    /// What should have been decided, from pages that were set.
    pub(super) fn of(document: &PagedDocument) -> Self {
        let height = |page: usize| {
            let page = document.pages().get(page.saturating_sub(1));
            page.map_or(0.0, |page| page.frame.size().y.to_pt())
        };
        let mut fitting = Self::default();
        let mut room: Option<(String, usize, f64)> = None;
        for place in places(document) {
            match place.mark {
                Mark::Section { place: section } => {
                    if place.down > BEGUN * height(place.page) {
                        fitting.breaks.push(section);
                    }
                }
                Mark::Room { file } => room = Some((file, place.page, place.down)),
                Mark::Figure {
                    file,
                    picture,
                    words,
                } => {
                    let page = height(place.page);
                    let (from, heading) = match room.take() {
                        Some((led, on, down)) if led == file && on == place.page => {
                            (down, place.down - down)
                        }
                        Some((led, _, down)) if led == file => {
                            (down, place.down - MARGIN + AROUND_HEADING)
                        }
                        _ => (place.down, 0.0),
                    };
                    let figure = Figure {
                        picture,
                        words,
                        heading,
                    };
                    let size = figure.size(page, from);
                    fitting.sizes.insert(file, size);
                }
            }
        }
        fitting
    }
}

/// The marks in order.
fn places(document: &PagedDocument) -> Vec<Place> {
    let introspector = document.introspector();
    let marks = introspector.query(&Selector::Elem(MetadataElem::ELEM, None));
    marks
        .iter()
        .filter_map(|mark| {
            let at = introspector.position(mark.location()?)?;
            let value = &mark.to_packed::<MetadataElem>()?.value;
            let mark = serde_json::to_value(value).ok()?;
            Some(Place {
                mark: serde_json::from_value(mark).ok()?,
                page: at.page.get(),
                down: at.point.y.to_pt(),
            })
        })
        .collect()
}

/// Heights of a figure at its own size, points.
struct Figure {
    picture: f64,
    words: f64,
    /// What stands above it and goes with it.
    heading: f64,
}

impl Figure {
    /// What part of its own size it is drawn in, on a page of this height, of which so much is taken.
    fn size(&self, page: f64, taken: f64) -> f64 {
        let fits =
            |size: f64, room: f64| self.heading + self.picture * size + self.words + SPARE <= room;
        let on_its_own = page - 2.0 * MARGIN - AROUND_HEADING;
        let most = SIZES.into_iter().find(|size| fits(*size, on_its_own));
        let most = most.unwrap_or(LEAST);
        let least = if taken < EMPTY * page {
            MUCH_SMALLER
        } else {
            SMALLER
        };
        let here = page - MARGIN - taken;
        let sizes = SIZES.into_iter().filter(|size| *size <= most);
        sizes
            .filter(|size| *size >= least * most)
            .find(|size| fits(*size, here))
            .unwrap_or(most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A4, points, by hand: 842 high, 54 above and below.
    const PAGE: f64 = 842.0;

    fn figure(picture: f64) -> Figure {
        Figure {
            picture,
            words: 20.0,
            heading: 30.0,
        }
    }

    #[test]
    #[expect(clippy::float_cmp, reason = "sizes are chosen from a list")]
    fn what_nearly_fits_is_drawn_smaller_and_what_does_not_goes_on_whole() {
        // 842 - 54 - 400 leaves 388, less 50 and 6 for words and spare.
        assert_eq!(figure(330.0).size(PAGE, 400.0), 1.0);
        assert_eq!(figure(360.0).size(PAGE, 400.0), 0.9);
        assert_eq!(figure(600.0).size(PAGE, 400.0), 1.0);
    }

    #[test]
    #[expect(clippy::float_cmp, reason = "sizes are chosen from a list")]
    fn a_page_hardly_begun_is_filled_and_no_figure_is_higher_than_a_page() {
        // 842 - 54 - 100 leaves 688, less 56; no page holds 750 with its heading.
        let tall = figure(750.0);
        assert!(tall.size(PAGE, 700.0) < 1.0);
        assert!(750.0 * tall.size(PAGE, 100.0) <= 632.0);
        assert_eq!(figure(5000.0).size(PAGE, 100.0), LEAST);
    }
}
