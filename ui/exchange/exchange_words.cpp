// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/exchange/exchange_words.h"

#include "core/text/columns.h"
#include "ui/library/recipe_words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QFileInfo>
#include <QLocale>
#include <QRegularExpression>

namespace bw::words {
namespace {

struct Exchange {
  Q_DECLARE_TR_FUNCTIONS(Exchange)
};

QString counted(std::size_t count, const QString& one, const QString& many) {
  return QStringLiteral("%1 %2").arg(QLocale().toString(static_cast<qulonglong>(count)), count == 1 ? one : many);
}

void add(QStringList& list, std::size_t count, const QString& one, const QString& many) {
  if (count > 0) list << counted(count, one, many);
}

QString joined(const QStringList& parts) {
  if (parts.size() < 2) return parts.join(QString());
  return Exchange::tr("%1 and %2").arg(parts.mid(0, parts.size() - 1).join(QStringLiteral(", ")), parts.last());
}

QStringList listed(std::size_t recipes, std::size_t materials, std::size_t machines, std::size_t attachments) {
  QStringList parts;
  add(parts, recipes, Exchange::tr("recipe"), Exchange::tr("recipes"));
  add(parts, materials, Exchange::tr("material"), Exchange::tr("materials"));
  add(parts, machines, Exchange::tr("machine"), Exchange::tr("machines"));
  add(parts, attachments, Exchange::tr("photo or document"), Exchange::tr("photos and documents"));
  return parts;
}

bool isRecipe(const ImportLine& line) { return line.part == BundlePart::Recipe; }

}  // namespace

QString oneLine(const std::string& text) {
  static const QRegularExpression turning(QStringLiteral("[\\x{200E}\\x{200F}\\x{2028}\\x{2029}\\x{202A}-\\x{202E}\\x{2066}-\\x{2069}]"));
  return QString::fromStdString(text::line(text)).remove(turning);  // else a name could be shown backwards
}

QString plain(const QString& sentence) { return QString(sentence).replace(QStringLiteral(": $: "), QStringLiteral(": ")); }

QString part(BundlePart part) {
  switch (part) {
    case BundlePart::Substrate:
      return Exchange::tr("metal");
    case BundlePart::Coating:
      return Exchange::tr("coating");
    case BundlePart::Machine:
      return Exchange::tr("machine");
    case BundlePart::Recipe:
      break;
  }
  return Exchange::tr("recipe");
}

QString status(const ImportLine& line) {
  switch (line.status) {
    case ImportStatus::New:
      return Exchange::tr("new");
    case ImportStatus::Identical:
      return Exchange::tr("the same already");
    case ImportStatus::Continues:
      return Exchange::tr("continues yours");
    case ImportStatus::Conflict:
      break;
  }
  return isRecipe(line) && line.common > 0 ? Exchange::tr("both changed") : Exchange::tr("differs from yours");
}

QString fate(const ImportLine& line, ImportDecision decision) {
  if (line.status == ImportStatus::Identical) return Exchange::tr("nothing to do");
  if (decision == ImportDecision::Mine)
    return line.status == ImportStatus::Conflict ? Exchange::tr("mine is kept") : Exchange::tr("stays out");
  if (line.status == ImportStatus::New) return Exchange::tr("comes in");
  if (line.status == ImportStatus::Continues) return Exchange::tr("versions are added");
  if (decision == ImportDecision::Theirs) return Exchange::tr("theirs is taken");
  return decision == ImportDecision::Both ? Exchange::tr("both are kept") : Exchange::tr("open: decide");
}

QString standing(const ImportLine& line) {
  switch (line.status) {
    case ImportStatus::New:
      return Exchange::tr("Your library has nothing under this id yet.");
    case ImportStatus::Identical:
      return Exchange::tr("Your library has all of it already; nothing is to be done.");
    case ImportStatus::Continues:
      return Exchange::tr("Theirs goes on where yours ends. The newest of both sides, where they differ:");
    case ImportStatus::Conflict:
      break;
  }
  if (isRecipe(line) && line.common > 0)
    return Exchange::tr("Both sides went on from the same beginning. The newest of both, where they differ:");
  return Exchange::tr("Both sides have something else under the same id:");
}

QString effect(const ImportLine& line, ImportDecision decision) {
  const bool conflict = line.status == ImportStatus::Conflict;
  if (decision == ImportDecision::Mine)
    return line.status == ImportStatus::New ? Exchange::tr("Nothing of it comes in.")
                                            : Exchange::tr("Yours stays as it is; nothing of theirs comes in.");
  if (decision == ImportDecision::Both)
    return Exchange::tr("Yours stays as it is; theirs comes in beside it as “%1”.").arg(oneLine(copyNameOf(line.name)));
  if (!conflict)
    return line.status == ImportStatus::New ? Exchange::tr("It comes in.") : Exchange::tr("Their later versions come after yours.");
  if (isRecipe(line))
    return Exchange::tr("Theirs counts from then on: its versions come after yours, which stay readable, and its state is taken over.");
  return Exchange::tr("Theirs stands in the place of yours. Of materials and machines no older state is kept.");
}

QString size(std::uintmax_t size_bytes) {
  return QLocale().formattedDataSize(static_cast<qint64>(size_bytes), 1, QLocale::DataSizeSIFormat);
}

QString extent(const ExportExtent& extent) { return joined(listed(extent.recipes, extent.materials, extent.machines, 0)); }

QString origin(const Bundle& bundle) {
  const QDateTime made = QDateTime::fromString(QString::fromStdString(bundle.madeAt), Qt::ISODate);
  const QString when = made.isValid() ? date(bundle.madeAt) : QString();
  const QString from =
      bundle.from.empty() ? Exchange::tr("Whoever made it did not say who they are") : Exchange::tr("From %1").arg(oneLine(bundle.from));
  const QStringList parts =
      listed(bundle.recipes.size(), bundle.substrates.size() + bundle.coatings.size(), bundle.machines.size(), bundle.files.size());
  const QString content = parts.isEmpty() ? Exchange::tr("Nothing is in it.") : Exchange::tr("In it: %1.").arg(joined(parts));
  return when.isEmpty() ? Exchange::tr("%1. %2").arg(from, content) : Exchange::tr("%1, written on %2. %3").arg(from, when, content);
}

QString counts(const ImportPlan& plan) {
  QStringList parts;
  add(parts, plan.count(ImportStatus::Conflict), Exchange::tr("differs from yours and wants a decision"),
      Exchange::tr("differ from yours and want a decision"));
  add(parts, plan.count(ImportStatus::Continues), Exchange::tr("continues yours"), Exchange::tr("continue yours"));
  add(parts, plan.count(ImportStatus::New), Exchange::tr("is new"), Exchange::tr("are new"));
  add(parts, plan.count(ImportStatus::Identical), Exchange::tr("is the same already"), Exchange::tr("are the same already"));
  return parts.isEmpty() ? QString() : parts.join(QStringLiteral("; ")) + QLatin1Char('.');
}

QString written(const WrittenBundle& written) {
  const QString what = joined(listed(written.recipes, written.materials, written.machines, written.attachments));
  return Exchange::tr("Written: %1, %2, to %3.").arg(what, size(written.size_bytes), written.file);
}

QString broughtIn(const QString& file, const ImportOutcome& outcome) {
  QStringList parts;
  add(parts, outcome.recipes, Exchange::tr("recipe"), Exchange::tr("recipes"));
  add(parts, outcome.versions, Exchange::tr("later version of a recipe that was there"),
      Exchange::tr("later versions of recipes that were there"));
  add(parts, outcome.states, Exchange::tr("changed state of a recipe"), Exchange::tr("changed states of recipes"));
  add(parts, outcome.materials, Exchange::tr("material"), Exchange::tr("materials"));
  add(parts, outcome.machines, Exchange::tr("machine"), Exchange::tr("machines"));
  add(parts, outcome.attachments, Exchange::tr("photo or document"), Exchange::tr("photos and documents"));
  const QString name = QFileInfo(file).fileName();
  if (parts.isEmpty()) return Exchange::tr("Nothing came in from %1: your library stays as it was.").arg(name);
  const QString said = Exchange::tr("Brought in from %1: %2.").arg(name, joined(parts));
  if (outcome.untouched == 0) return said;
  return said + QLatin1Char(' ') +
         (outcome.untouched == 1 ? Exchange::tr("One entry of the bundle changed nothing.")
                                 : Exchange::tr("%1 entries of the bundle changed nothing.").arg(outcome.untouched));
}

}  // namespace bw::words
