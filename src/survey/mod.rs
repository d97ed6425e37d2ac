//! What was recorded in the vehicle: the survey, its edits, its findings and its file.
