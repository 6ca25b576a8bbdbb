// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/machine_card_view.h"

#include "ui/own/machine_sketch.h"
#include "ui/own/power_plot.h"
#include "ui/own/upkeep_mark.h"
#include "ui/plan/form.h"
#include "ui/style/format.h"
#include "ui/style/to_qt.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>

namespace bw {
namespace {

QString powerFact(const Machine& machine) {
  const QString rated = MachineCardView::tr("Rated %1").arg(format::power(machine.ratedPower_W));
  return machine.deliveredPower_W ? MachineCardView::tr("%1, delivered at the part %2").arg(rated, format::power(*machine.deliveredPower_W))
                                  : MachineCardView::tr("%1; what arrives at the part was not measured").arg(rated);
}

QString opticFact(const Optic& optic) {
  QStringList parts;
  if (optic.focalLength_m) parts << MachineCardView::tr("focal length %1").arg(format::millimetres(*optic.focalLength_m));
  if (optic.spotDiameter_m) parts << MachineCardView::tr("spot %1").arg(format::length(*optic.spotDiameter_m));
  if (optic.standOff_m) parts << MachineCardView::tr("stand-off %1").arg(format::millimetres(*optic.standOff_m));
  if (optic.tipWidth_m) parts << MachineCardView::tr("tip %1 wide").arg(format::millimetres(*optic.tipWidth_m));
  return parts.isEmpty() ? toQt(optic.id) : MachineCardView::tr("%1 (%2)").arg(toQt(optic.id), parts.join(QStringLiteral(", ")));
}

QString listed(const QStringList& names, const QString& none) { return names.isEmpty() ? none : names.join(QStringLiteral("; ")); }

QString glassFact(const MachineCard& card) {
  if (!card.coverGlass_s) return MachineCardView::tr("Cover glass: hours not noted");
  const QString hours = MachineCardView::tr("Cover glass: %1 h of beam").arg(format::number(*card.coverGlass_s / 3600));
  return card.coverGlassSince.empty() ? hours : MachineCardView::tr("%1 since %2").arg(hours, toQt(card.coverGlassSince));
}

}  // namespace

QStringList factsOf(const MachineCard& card) {
  const Machine& machine = card.machine;
  QStringList optics, pieces;
  for (const Optic& optic : machine.optics) optics << opticFact(optic);
  for (const OwnedPiece& piece : card.pieces)
    pieces << (piece.count == 1 ? toQt(piece.what) : MachineCardView::tr("%1 × %2").arg(format::count(piece.count), toQt(piece.what)));
  const std::string last = lastCheck(card);
  QStringList facts{MachineCardView::tr("%1, %2 nm, M² %3")
                        .arg(machine.kind == MachineKind::Pulsed ? MachineCardView::tr("Pulsed") : MachineCardView::tr("Continuous"),
                             format::number(machine.wavelength_m * 1e9, 4), format::number(machine.M2)),
                    powerFact(machine),
                    MachineCardView::tr("Optics: %1").arg(listed(optics, MachineCardView::tr("none noted"))),
                    MachineCardView::tr("Tips and pieces: %1").arg(listed(pieces, MachineCardView::tr("none noted"))),
                    MachineCardView::tr("Last check: %1").arg(last.empty() ? MachineCardView::tr("none noted") : toQt(last)),
                    glassFact(card)};
  if (!card.note.empty()) facts << MachineCardView::tr("Note: %1").arg(toQt(card.note));
  return facts;
}

MachineCardView::MachineCardView(QWidget* parent)
    : QWidget(parent),
      m_name(new QLabel),
      m_origin(new QuietLabel),
      m_sketch(new MachineSketch),
      m_plot(new PowerPlot),
      m_upkeep(new UpkeepMark),
      m_facts(new QLabel),
      m_edit(new QPushButton) {
  QFont bold = font();
  bold.setBold(true);
  bold.setPixelSize(space::headFont);
  m_name->setFont(bold);
  m_facts->setWordWrap(true);
  m_facts->setTextFormat(Qt::PlainText);
  m_facts->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  m_plot->setMinimumSize(300, 190);
  m_plot->leaveWheelToPage();
  auto* setUp = new QPushButton(MachineCardView::tr("Set up by measuring…"));
  setUp->setObjectName(QStringLiteral("setUpMachine"));
  setUp->setToolTip(
      MachineCardView::tr("From a few measurements to spot, beam quality, turnaround and delivered power, each with its range."));
  auto* use = new QPushButton(MachineCardView::tr("Use in this plan"));
  use->setObjectName(QStringLiteral("useMachine"));
  use->setToolTip(MachineCardView::tr("Copies the machine into the open project and chooses it."));
  connect(use, &QPushButton::clicked, this, &MachineCardView::useWanted);
  m_edit->setObjectName(QStringLiteral("editMachine"));
  connect(m_edit, &QPushButton::clicked, this, &MachineCardView::editWanted);
  connect(setUp, &QPushButton::clicked, this, &MachineCardView::setUpWanted);

  auto* head = new QHBoxLayout;
  head->addWidget(m_name);
  head->addWidget(m_origin);
  head->addStretch();
  head->addWidget(use);
  head->addWidget(m_edit);
  head->addWidget(setUp);
  auto* words = new QVBoxLayout;
  words->addWidget(m_upkeep);
  words->addWidget(m_facts, 1);
  auto* body = new QHBoxLayout;
  body->setSpacing(space::large);
  body->addWidget(m_sketch, 5);
  body->addWidget(m_plot, 6);
  body->addLayout(words, 7);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(space::large, space::medium, space::large, space::large);
  all->addLayout(head);
  all->addLayout(body);
}

void MachineCardView::setEntry(const LibraryEntry<MachineCard>& entry, const std::string& today, const UpkeepHabit& habit) {
  const MachineCard& card = entry.value;
  m_id = card.machine.id;
  const QString name = toQt(card.machine.name.empty() ? card.machine.id : card.machine.name);
  setAccessibleName(MachineCardView::tr("Machine %1").arg(name));
  m_name->setText(name);
  m_origin->setText(entry.origin == EntryOrigin::Shipped   ? MachineCardView::tr("typical, shipped with the program")
                    : entry.origin == EntryOrigin::OwnCopy ? MachineCardView::tr("your copy of a typical one")
                                                           : MachineCardView::tr("yours"));
  m_edit->setText(entry.origin == EntryOrigin::Shipped ? MachineCardView::tr("Look at it…") : MachineCardView::tr("Edit…"));
  m_sketch->setMachine(card.machine);
  m_plot->setCurves(card.machine, powerAgainstRate(card.machine));
  m_upkeep->setDue(checkDue(card, today, habit));
  m_facts->setText(factsOf(card).join('\n'));
}

void MachineCardView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Tones tones = tonesOf(palette());
  painter.setPen(QPen(tones.line, 1));
  painter.setBrush(palette().color(QPalette::AlternateBase));
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), space::small, space::small);
}

}  // namespace bw
