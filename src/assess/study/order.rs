//! The order in which to seal.

use super::Study;
use super::part::Part;
use crate::assess::Answer;
use crate::assess::sealing::{Aim, Order, Prospect};

impl Study {
    /// The order of most saving for the money; not known where the aim's figure is not.
    pub fn order(&self, aim: Aim) -> &Answer<Order> {
        self.once(&self.kept.orders[aim as usize], Part::Order, || {
            self.prospect()?.order(aim)
        })
    }

    /// The same, made by `make` where nobody made it yet; `None` where that gave it up.
    pub fn order_by(
        &self,
        aim: Aim,
        make: impl FnOnce(&Prospect) -> Option<Answer<Order>>,
    ) -> Option<&Answer<Order>> {
        let cell = &self.kept.orders[aim as usize];
        if cell.get().is_none() {
            let order = match self.prospect() {
                Ok(prospect) => make(prospect)?,
                Err(unknown) => Err(unknown),
            };
            self.once(cell, Part::Order, || order);
        }
        cell.get()
    }
}
