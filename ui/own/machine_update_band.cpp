// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/machine_update_band.h"

#include "ui/style/elided_label.h"
#include "ui/style/theme.h"
#include "ui/style/to_qt.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QStringList>

namespace bw {
namespace {

constexpr std::size_t mostChanges = 6;  // the line is elided, its tip is not

QString updateWords(const MachineUpdate& update) {
  QStringList words;
  for (std::size_t i = 0; i < std::min(mostChanges, update.changes.size()); ++i) words << toQt(inWords(update.changes[i]));
  if (update.changes.size() > mostChanges) words << MachineUpdateBand::tr("and %1 more").arg(update.changes.size() - mostChanges);
  return words.join(QStringLiteral("; "));
}

}  // namespace

MachineUpdateBand::MachineUpdateBand(QWidget* parent) : QWidget(parent), m_text(new ElidedLabel) {
  setObjectName(QStringLiteral("machineUpdateBand"));
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::AlternateBase);
  m_text->setObjectName(QStringLiteral("machineUpdateText"));
  auto* take = new QPushButton(tr("Update this project"));
  take->setObjectName(QStringLiteral("takeUpdate"));
  take->setToolTip(tr("The project's copy becomes what the card is now. This can be undone."));
  auto* keep = new QPushButton(tr("Keep as it is"));
  keep->setObjectName(QStringLiteral("declineUpdate"));
  keep->setToolTip(tr("You are asked again when the card changes again."));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(space::large, 6, space::medium, 6);
  row->setSpacing(space::medium);
  row->addWidget(m_text, 1);
  row->addWidget(take);
  row->addWidget(keep);
  connect(take, &QPushButton::clicked, this, [this] {
    if (const auto update = m_update) emit taken(*update);
  });
  connect(keep, &QPushButton::clicked, this, [this] {
    if (const auto update = m_update) emit declined(*update);
  });
  hide();
}

void MachineUpdateBand::setUpdate(const std::optional<MachineUpdate>& update) {
  m_update = update;
  if (m_update) m_text->setText(tr("“%1” was changed under “What I own”: %2.").arg(toQt(m_update->machine.name), updateWords(*m_update)));
}

}  // namespace bw
