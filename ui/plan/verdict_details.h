// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plan/margin_bar.h"
#include "ui/plan/range_bar.h"

#include <QColor>

#include <vector>

namespace bw {

/// One finding in words, with a sentence that explains its term; beside it the colour of the layer it is about.
struct Fact {
  QString text;
  QString tip;
  QColor layer = {};  // not valid: about no layer
};

/// The limits that stand under a verdict row, tightest first.
std::vector<MarginLine> marginsFor(const std::string& check, const Assessment& assessment, const Project& project, bool moreToCome);

/// The numbers with ranges that stand under a verdict row.
std::vector<RangeLine> rangesFor(const std::string& check, const Assessment& assessment, const Project& project, bool moreToCome);

/// What else is known about it, in words.
std::vector<Fact> factsFor(const VerdictRow& row, const Assessment& assessment, const Project& project);

}  // namespace bw
