// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/project_file.h"

#include <string>

namespace bw {

/// What kind of trouble the library met. The window offers a remedy by it; the message says the same in words.
enum class LibraryTrouble {
  Busy,      // another program is writing
  Full,      // no room on the disk
  ReadOnly,  // may be read but not written
  Corrupt,   // damaged: a backup can be restored
  NotOurs,   // some other file, or none
  Newer,     // written by a newer version of this program
  Io,        // the disk or the network failed
  Missing,   // no such recipe, version, coating, ...
  Conflict,  // somebody else saved it meanwhile; nothing was overwritten
  Refused,   // what was given cannot be kept: a broken text, a number out of bounds, a proof without a trial
};

/// Thrown by everything that touches the library. what() is one plain sentence: the path, what is wrong, what to try.
class LibraryError : public FileError {
 public:
  LibraryError(LibraryTrouble trouble, const std::string& message) : FileError(message), m_trouble(trouble) {}
  LibraryTrouble trouble() const { return m_trouble; }

 private:
  LibraryTrouble m_trouble;
};

}  // namespace bw
