// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/exchange/bundle_jobs.h"

#include <QStringList>

/// What is said of bundles and of what stands in them.
namespace bw::words {

/// One line whatever a stranger wrote.
QString oneLine(const std::string& text);

/// A message without the place at which the whole of a file stands.
QString plain(const QString& sentence);

QString part(BundlePart part);           // "recipe", "coating", "metal", "machine"
QString status(const ImportLine& line);  // "new", "the same already", "continues yours", "both changed"
/// What becomes of the entry: "comes in", "open: decide", "mine is kept".
QString fate(const ImportLine& line, ImportDecision decision);
/// How the entry stands to the library, in a sentence.
QString standing(const ImportLine& line);
/// What a decision about the entry does, in a sentence.
QString effect(const ImportLine& line, ImportDecision decision);

QString size(std::uintmax_t size_bytes);  // "4.2 MB"
/// "3 recipes, 1 machine"; what there is none of is left out. Empty: nothing at all.
QString extent(const ExportExtent& extent);
/// Who made the bundle and when, and how much is in it.
QString origin(const Bundle& bundle);
/// "2 differ from yours and want a decision; 3 are new; 1 is the same already."
QString counts(const ImportPlan& plan);
/// Where it was written and how much.
QString written(const WrittenBundle& written);
/// What came in.
QString broughtIn(const QString& file, const ImportOutcome& outcome);

}  // namespace bw::words
