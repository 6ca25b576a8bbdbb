// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"
#include "core/values/plan.h"

#include <QString>

#include <vector>

namespace bw {

/// One setting as a hand dials it: what it is called, and its exact value with the unit.
struct SettingLine {
  QString name;
  QString value;
  bool operator==(const SettingLine&) const = default;
};

/// All settings of a step in the order they are dialled: pulse, lines, hand, passes. Those that mean nothing for the machine or the
/// pattern are left out.
std::vector<SettingLine> settingLines(const Settings& settings, const Machine* machine);

QString patternWord(Pattern pattern);

}  // namespace bw
