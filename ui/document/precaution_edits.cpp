// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/hazards.h"
#include "ui/document/change_value.h"
#include "ui/document/edits.h"

#include <QCoreApplication>

#include <algorithm>

namespace bw::edits {
namespace {

struct PrecautionWords {
  Q_DECLARE_TR_FUNCTIONS(PrecautionWords)
};

std::vector<Clearance> without(std::vector<Clearance> all, const std::string& item) {
  std::erase_if(all, [&](const Clearance& one) { return one.item == item; });
  return all;
}

void setClearances(ProjectDocument& document, const QString& text, std::vector<Clearance> all) {
  change<std::vector<Clearance>>(
      document, {text, Change::Part, {}}, [](Project& project) -> std::vector<Clearance>& { return project.beforeBeam; }, std::move(all));
}

/// In the part's coat and in those that areas have of their own; `change` gives the changed one.
template <class ChangeCoat>
void changeCoats(ProjectDocument& document, const QString& text, const ChangeCoat& changed) {
  const Project& project = document.project();
  std::vector<Area> areas = project.part.areas;
  for (Area& area : areas)
    if (area.coat) area.coat = changed(*area.coat);
  Coat coat = changed(project.coat);
  change<Coat>(
      document, {text, Change::Coat, {}}, [](Project& one) -> Coat& { return one.coat; }, std::move(coat));
  change<std::vector<Area>>(
      document, {text, Change::Part, {}}, [](Project& one) -> std::vector<Area>& { return one.part.areas; }, std::move(areas));
}

}  // namespace

void settlePrecaution(ProjectDocument& document, const Precaution& precaution, const Clearance& by) {
  std::vector<Clearance> all = without(document.project().beforeBeam, precaution.id);
  all.push_back(by);
  all.back().item = precaution.id;
  setClearances(document, PrecautionWords::tr("settle: %1").arg(QString::fromStdString(precaution.what)), std::move(all));
}

void settleTest(ProjectDocument& document, const Precaution& test, Presence found, const Clearance& by, const Library& shipped) {
  document.undoStack().beginMacro(PrecautionWords::tr("note the %1").arg(QString::fromStdString(test.what)));
  settlePrecaution(document, test, by);
  const Library own = document.project().library;
  changeCoats(document, PrecautionWords::tr("note what the coat holds"),
              [&](const Coat& coat) { return withTested(coat, test.component, found, own, shipped); });
  document.undoStack().endMacro();
}

void reopenPrecaution(ProjectDocument& document, const Precaution& precaution) {
  const QString text = PrecautionWords::tr("open again: %1").arg(QString::fromStdString(precaution.what));
  document.undoStack().beginMacro(text);
  setClearances(document, text, without(document.project().beforeBeam, precaution.id));
  if (!precaution.component.empty()) changeCoats(document, text, [&](const Coat& coat) { return withoutTest(coat, precaution.component); });
  document.undoStack().endMacro();
}

}  // namespace bw::edits
