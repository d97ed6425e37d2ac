//! The survey file: `NAME.ron`, with the photos in the folder `NAME.photos` beside it.
//!
//! A file names its format first. Each format has its own frozen set of structs (see `v1`),
//! so that a file written today is read by every later version; the runtime structs of
//! [`crate::survey`] are never written themselves. The format is described field by field, for
//! people and for other programs, below (`v2/format.md`).
//!
//! [`parse`] and [`print()`] are pure; [`load()`] and [`save()`] touch the disk.
//!
#![doc = include_str!("v2/format.md")]

mod by_content;
mod data;
mod disk;
mod error;
mod head;
mod limits;
mod live;
mod load;
mod mapping;
mod misread;
mod photos;
mod save;
mod stamp;
mod stored;
mod text;
mod trouble;
mod v1;
mod v2;

pub use data::{
    DataError, LARGEST_DATA_BYTES, carry_data, carry_data_through, data_folder, data_names,
    find_data, find_weather, keep_data, keep_data_through, read_data_file,
};
pub use disk::{Disk, RealDisk};
pub use error::{LoadError, ParseError, SaveError, SaveStep};
pub use head::{FileHead, read_head};
pub use limits::{LARGEST_FILE_BYTES, LONGEST_TEXT_BYTES, NEWEST_FORMAT};
pub use load::{Loaded, load, read_file};
pub use mapping::{parse_mapping, print_mapping};
#[cfg(test)]
pub(crate) use photos::Room;
pub use photos::*;
pub(crate) use save::behind_links;
pub use save::{Backups, Overwrite, backup_path, protection, save, save_through};
pub use stamp::FileStamp;
pub use text::{parse, parse_bytes, print};
pub use trouble::in_plain_words;
pub(crate) use v2::FIRST_LINE;
