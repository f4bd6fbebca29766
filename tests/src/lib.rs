//! Nothing lives here: the checks are the files beside this folder, each a test of its own.
