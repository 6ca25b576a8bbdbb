// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/core/assess/examples.h"

namespace bw::test {

/// Bare of all but a thin dark layer that one slow pass takes off.
inline Project easyProject() {
  Project project = smallProject();
  project.coat.resize(1);
  project.coat[0].thickness_m = Range::exact(5e-6);
  settingsOf(project).passes = 50;
  return project;
}

}  // namespace bw::test
