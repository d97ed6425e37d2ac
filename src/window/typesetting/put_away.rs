//! Bytes put away in a file without a name, which the system removes with the program whatever
//! becomes of it: pages, photos and the PDF of a sheet are megabytes that nobody looks at for long.

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::sync::{Arc, Mutex, PoisonError};

/// Where bytes are put away. All that is put into one goes back to the disk with the last of it.
pub(super) struct Shelf {
    file: Option<Arc<Mutex<File>>>,
}

/// Bytes put away.
#[derive(Clone)]
pub(super) enum PutAway {
    /// So many bytes from this one on.
    InFile {
        file: Arc<Mutex<File>>,
        from: u64,
        length: usize,
    },
    /// The disk would not take them.
    InMemory(Arc<Vec<u8>>),
}

impl Shelf {
    /// An empty one, in the system's folder for passing files.
    pub(super) fn new() -> Self {
        let file = tempfile::tempfile().ok();
        Self {
            file: file.map(|file| Arc::new(Mutex::new(file))),
        }
    }

    /// Puts bytes away.
    pub(super) fn put(&self, bytes: Vec<u8>) -> PutAway {
        let written = self.file.as_ref().and_then(|file| {
            let mut open = file.lock().unwrap_or_else(PoisonError::into_inner);
            let from = open.seek(SeekFrom::End(0)).ok()?;
            open.write_all(&bytes).ok()?;
            Some((Arc::clone(file), from))
        });
        match written {
            Some((file, from)) => PutAway::InFile {
                file,
                from,
                length: bytes.len(),
            },
            None => PutAway::InMemory(Arc::new(bytes)),
        }
    }
}

impl PutAway {
    /// The bytes again.
    ///
    /// # Errors
    /// Those of the disk.
    pub(super) fn bytes(&self) -> io::Result<Vec<u8>> {
        match self {
            Self::InFile { file, from, length } => {
                let mut bytes = vec![0; *length];
                let mut open = file.lock().unwrap_or_else(PoisonError::into_inner);
                open.seek(SeekFrom::Start(*from))?;
                open.read_exact(&mut bytes)?;
                Ok(bytes)
            }
            Self::InMemory(bytes) => Ok(bytes.to_vec()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_come_back_as_they_went_in_whatever_was_put_away_in_between() {
        let shelf = Shelf::new();
        let lots: Vec<Vec<u8>> = (0..9_u8).map(|n| vec![n; usize::from(n) * 7_001]).collect();
        let put: Vec<PutAway> = lots.iter().map(|lot| shelf.put(lot.clone())).collect();
        drop(shelf);
        for (lot, put) in lots.iter().zip(&put).rev() {
            assert!(matches!(put, PutAway::InFile { .. }));
            assert_eq!(put.bytes().unwrap(), *lot);
        }
    }

    #[test]
    fn what_the_disk_will_not_take_stays_in_memory() {
        // Opened for reading only: every write fails, as on a disk that is full.
        let read_only = File::open("/dev/null").unwrap();
        for file in [None, Some(Arc::new(Mutex::new(read_only)))] {
            let put = Shelf { file }.put(vec![3; 10]);
            assert!(matches!(put, PutAway::InMemory(_)));
            assert_eq!(put.bytes().unwrap(), [3; 10]);
        }
    }

    #[test]
    fn what_was_cut_off_meanwhile_is_an_error() {
        let file = Arc::new(Mutex::new(tempfile::tempfile().unwrap()));
        let shelf = Shelf {
            file: Some(Arc::clone(&file)),
        };
        let put = shelf.put(vec![1; 100]);
        file.lock().unwrap().set_len(50).unwrap();
        assert!(put.bytes().is_err());
    }
}
