// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/part_form.h"

#include "core/files/library_file.h"
#include "ui/document/edits.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/area_table.h"
#include "ui/style/theme.h"

#include <QMenu>
#include <QPushButton>
#include <QToolButton>

#include <algorithm>

namespace bw {
namespace {

const char* const backFaceLimit = "back_face_C";

QString finishWord(Finish finish) {
  switch (finish) {
    case Finish::Untouched: return PartForm::tr("metal untouched");
    case Finish::LightEtch: return PartForm::tr("light etch allowed");
    case Finish::Any: break;
  }
  return PartForm::tr("any finish");
}

QString behindWords(const std::vector<Behind>& behind) {
  QStringList words;
  for (const Behind one : behind) words << behindWord(one);
  if (words.isEmpty()) return PartForm::tr("not known what lies behind");
  return PartForm::tr("%1 behind").arg(words.join(QStringLiteral(", ")));
}

/// "Mild steel (sheet, plate)" as it reads within a sentence: "mild steel".
QString inSentence(const std::string& name) { return QString::fromStdString(name).section(QStringLiteral(" ("), 0, 0).toLower(); }

const Substrate* substrateOf(const Project& project, const std::string& id) {
  const Substrate* own = findSubstrate(project.library, id);
  return own ? own : findSubstrate(shippedLibrary(), id);
}

KnownFrom fromOf(const Part& part, const std::string& key) {
  const auto found = part.knownFrom.find(key);
  return found == part.knownFrom.end() ? KnownFrom::Guess : found->second;
}

}  // namespace

const std::vector<Behind>& behindsInOrder() {
  static const std::vector<Behind> all{Behind::Nothing,      Behind::Paint, Behind::Adhesive, Behind::Sealer, Behind::Rubber,
                                       Behind::Solder,       Behind::Foam,  Behind::Wax,      Behind::Wood,   Behind::Wiring,
                                       Behind::ClosedCavity, Behind::Fuel,  Behind::Unknown};
  return all;
}

bool standsAlone(Behind behind) { return behind == Behind::Nothing || behind == Behind::Unknown; }

QString behindWord(Behind behind) {
  switch (behind) {
    case Behind::Foam: return PartForm::tr("foam");
    case Behind::Wax: return PartForm::tr("wax");
    case Behind::Wood: return PartForm::tr("wood");
    case Behind::Wiring: return PartForm::tr("wiring");
    case Behind::Paint: return PartForm::tr("paint");
    case Behind::Adhesive: return PartForm::tr("structural glue");
    case Behind::Sealer: return PartForm::tr("seam sealer");
    case Behind::Rubber: return PartForm::tr("rubber");
    case Behind::Solder: return PartForm::tr("soldered joint");
    case Behind::ClosedCavity: return PartForm::tr("closed cavity");
    case Behind::Fuel: return PartForm::tr("fuel");
    case Behind::Nothing: return PartForm::tr("nothing");
    case Behind::Unknown: break;
  }
  return PartForm::tr("don't know what");
}

QString partSentence(const Project& project) {
  const Part& part = project.part;
  const Substrate* substrate = substrateOf(project, part.substrate);
  const QString thickness = fromOf(part, "thickness_mm") == KnownFrom::Unknown ? PartForm::tr("unknown thickness of")
                                                                               : writeQuantity(part.thickness_m, quantities::length) + QStringLiteral(" mm");
  return PartForm::tr("%1 %2, %3 × %4 mm, %5; %6.")
      .arg(thickness, inSentence(substrate ? substrate->name : part.substrate), writeQuantity(Range::exact(part.size_m[0]), quantities::length),
           writeQuantity(Range::exact(part.size_m[1]), quantities::length), finishWord(part.finish), behindWords(part.behind));
}

PartForm::PartForm(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_document(document), m_edit(makeFoldButton(QStringLiteral("editPart"), tr("Edit"))), m_sentence(new QLabel) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  column->addWidget(new SectionHeader(tr("Part"), m_edit));
  m_sentence->setWordWrap(true);
  m_sentence->setObjectName(QStringLiteral("partSentence"));
  column->addWidget(m_sentence);
  QWidget* fields = makeFields();
  fields->hide();
  column->addWidget(fields);
  connect(m_edit, &QToolButton::toggled, fields, &QWidget::setVisible);
  connect(&m_document, &ProjectDocument::changed, this, &PartForm::refresh);
  refresh(Change::Everything);
}

QWidget* PartForm::makeFields() {
  auto* form = new Form;
  m_substrate = new Chooser(tr("Metal"), tr("The substrate: what is under the coat."));
  m_substrate->setObjectName(QStringLiteral("substrate"));
  connect(m_substrate, &Chooser::chosen, this, [this](const QString& id) { edits::setSubstrate(m_document, id.toStdString()); });
  form->addRow(tr("Metal"), m_substrate);
  m_thickness = new QuantityField({tr("Thickness"), tr("Thickness of the bare metal; thin metal heats through."), quantities::length, 5e-5, 1, 1e-4, true});
  m_thickness->setObjectName(QStringLiteral("partThickness"));
  connect(m_thickness, &QuantityField::edited, this,
          [this](Range value, EditKind kind) { edits::setPartThickness(m_document, value, KnownFrom::Guess, kind); });
  connect(m_thickness, &QuantityField::provenanceChosen, this,
          [this](KnownFrom from) { edits::setPartThickness(m_document, m_document.project().part.thickness_m, from); });
  form->addRow(tr("Thickness"), m_thickness);
  form->addRow(tr("Size"), makeSizeFields());
  m_finish = new Chooser(tr("Finish"), tr("What the bare metal may look like afterwards."));
  m_finish->setObjectName(QStringLiteral("finish"));
  for (const Finish finish : {Finish::Untouched, Finish::LightEtch, Finish::Any}) {
    m_finish->add(QString::number(static_cast<int>(finish)), finishWord(finish));
  }
  connect(m_finish, &Chooser::chosen, this, [this](const QString& id) { edits::setFinish(m_document, static_cast<Finish>(id.toInt())); });
  form->addRow(tr("Finish"), m_finish);
  m_behind = new QPushButton;
  m_behind->setObjectName(QStringLiteral("behind"));
  m_behind->setAccessibleName(tr("Behind the metal"));
  m_behind->setToolTip(tr("What lies behind the metal and must not get hot."));
  m_behind->setProperty("boxed", true);
  m_behind->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  auto* menu = new QMenu(m_behind);
  for (const Behind behind : behindsInOrder()) {
    QAction* action = menu->addAction(behindWord(behind));
    action->setCheckable(true);
    action->setData(static_cast<int>(behind));
    connect(action, &QAction::triggered, this, [this, behind](bool there) { toggleBehind(behind, there); });
  }
  m_behind->setMenu(menu);
  form->addRow(tr("Behind"), m_behind);
  addLimits(*form);
  form->addWide(new AreaTable(m_document));
  return form;
}

QWidget* PartForm::makeSizeFields() {
  const QString tip = tr("Size of the whole part; heat spreads over all of it.");
  m_width = new QuantityField({tr("Width"), tip, quantities::length, 1e-3, 100, 1e-2});
  m_height = new QuantityField({tr("Height"), tip, quantities::length, 1e-3, 100, 1e-2});
  m_width->setObjectName(QStringLiteral("partWidth"));
  m_height->setObjectName(QStringLiteral("partHeight"));
  connect(m_width, &QuantityField::edited, this, [this](Range value, EditKind kind) { edits::setPartWidth(m_document, value.likely, kind); });
  connect(m_height, &QuantityField::edited, this, [this](Range value, EditKind kind) { edits::setPartHeight(m_document, value.likely, kind); });
  return besideEachOther(m_width, m_height);
}

void PartForm::addLimits(Form& form) {
  m_backLimit = new QuantityField({tr("Back face"), tr("The hottest the far side may get; “don't know” leaves it to what lies behind."),
                                   quantities::temperature, -50, 2000, 5, false, true});
  m_backLimit->setObjectName(QStringLiteral("backFaceLimit"));
  connect(m_backLimit, &QuantityField::edited, this,
          [this](Range value, EditKind kind) { edits::setLimit(m_document, backFaceLimit, value.likely, kind); });
  connect(m_backLimit, &QuantityField::unknownChosen, this, [this] { edits::setLimit(m_document, backFaceLimit, std::nullopt); });
  form.addRow(tr("Back face limit"), m_backLimit);
  m_start = new QuantityField({tr("Start"), tr("Temperature of the part when the work starts."), quantities::temperature, -50, 500, 1});
  m_start->setObjectName(QStringLiteral("startTemperature"));
  connect(m_start, &QuantityField::edited, this,
          [this](Range value, EditKind kind) { edits::setStartTemperature(m_document, value.likely, kind); });
  form.addRow(tr("Part starts at"), m_start);
}

void PartForm::toggleBehind(Behind behind, bool there) {
  std::vector<Behind> all = m_document.project().part.behind;
  std::erase(all, behind);
  if (there) {
    // "Nothing" and "don't know" exclude whatever else was said.
    if (standsAlone(behind)) all.clear();
    std::erase_if(all, standsAlone);
    all.push_back(behind);
  }
  edits::setBehind(m_document, std::move(all));
}

void PartForm::refresh(Changes changes) {
  if (!(changes & Change::Part)) return;
  const Project& project = m_document.project();
  const Part& part = project.part;
  m_sentence->setText(partSentence(project));
  if (changes == Changes(Change::Everything)) {
    m_substrate->clear();
    for (const Substrate& one : shippedLibrary().substrates) {
      m_substrate->add(QString::fromStdString(one.id), QString::fromStdString(one.name), QString::fromStdString(one.note));
    }
    for (const Substrate& one : project.library.substrates) {
      if (!findSubstrate(shippedLibrary(), one.id)) m_substrate->add(QString::fromStdString(one.id), QString::fromStdString(one.name));
    }
  }
  m_substrate->setId(QString::fromStdString(part.substrate));
  m_thickness->setRange(part.thickness_m);
  m_thickness->setProvenance(fromOf(part, "thickness_mm"));
  m_width->setValue(part.size_m[0]);
  m_height->setValue(part.size_m[1]);
  m_finish->setId(QString::number(static_cast<int>(part.finish)));
  for (QAction* action : m_behind->menu()->actions()) {
    action->setChecked(std::ranges::find(part.behind, static_cast<Behind>(action->data().toInt())) != part.behind.end());
  }
  m_behind->setText(QChar(0x2002) + behindWords(part.behind));  // a style sheet's padding does not reach left-aligned text
  if (const auto limit = part.limits.find(backFaceLimit); limit != part.limits.end()) {
    m_backLimit->setValue(limit->second);
  } else {
    m_backLimit->setUnknown();
  }
  m_start->setValue(part.startTemperature_C);
}

}  // namespace bw
