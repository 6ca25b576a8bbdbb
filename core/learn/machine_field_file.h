// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/units.h"
#include "core/learn/machine_setup.h"

namespace bw {

/// A machine's property as it stands in a file and as people call it.
struct FieldInFile {
  const char* key = "";
  const char* name = "";
  FileUnit unit;
};

FieldInFile fieldInFile(MachineField field);

}  // namespace bw
