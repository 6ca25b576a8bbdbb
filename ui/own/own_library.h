// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/exchange/bundle_flow.h"
#include "ui/library/library_desk.h"
#include "ui/own/own_things.h"

namespace bw {

/// Everything the page shows, read from the store.
OwnedThings ownedThings(LibraryStore& store, const LibraryOptions& options);

/// What the page asks for, done on the desk's thread. `options` are those of the desk. Answers come on the interface's thread, and what
/// the library has to say to a request is said where it was made.
OwnActions actionsOn(LibraryDesk& desk, BundleFlow& bundles);

/// Reads the page's things on the desk's thread and hands them over on the interface's.
void askForThings(LibraryDesk& desk, const LibraryOptions& options, std::function<void(const OwnedThings&)> taker);

}  // namespace bw
