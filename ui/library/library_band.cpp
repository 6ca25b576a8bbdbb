// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/library_band.h"

#include "ui/style/elided_label.h"
#include "ui/style/theme.h"

#include <QDir>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>

namespace bw {

LibraryBand::LibraryBand(QWidget* parent)
    : QWidget(parent),
      m_text(new QLabel),
      m_restore(new QPushButton),
      m_readOnly(new QPushButton(tr("Open to read only"))),
      m_another(new QPushButton(tr("Use another file…"))),
      m_again(new QPushButton(tr("Try again"))),
      m_own(new QPushButton(tr("Back to my library"))),
      m_close(new QPushButton(tr("Hide"))) {
  setObjectName(QStringLiteral("libraryBand"));
  m_text->setObjectName(QStringLiteral("libraryProblem"));
  m_text->setWordWrap(true);
  m_text->setTextFormat(Qt::PlainText);
  m_text->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(space::large + space::edgeStripe, 6, space::large, 6);
  row->setSpacing(space::medium);
  row->addWidget(m_text, 1);
  const std::pair<QPushButton*, const char*> named[] = {{m_restore, "restoreBackup"},  {m_again, "tryAgain"}, {m_readOnly, "openReadOnly"},
                                                        {m_another, "anotherLibrary"}, {m_own, "ownLibrary"}, {m_close, "hideBand"}};
  for (const auto& [button, name] : named) {
    button->setObjectName(QLatin1String(name));
    row->addWidget(button);
  }
  connect(m_restore, &QPushButton::clicked, this, [this] { emit restoreChosen(m_backup); });
  connect(m_readOnly, &QPushButton::clicked, this, &LibraryBand::readOnlyChosen);
  connect(m_another, &QPushButton::clicked, this, &LibraryBand::anotherChosen);
  connect(m_again, &QPushButton::clicked, this, &LibraryBand::againChosen);
  connect(m_own, &QPushButton::clicked, this, &LibraryBand::ownChosen);
  connect(m_close, &QPushButton::clicked, this, &LibraryBand::clear);
  clear();
}

void LibraryBand::show(const QString& sentence, Status status, const QList<QPushButton*>& offered) {
  m_status = status;
  m_text->setText(sentence);
  setAccessibleName(sentence);
  for (QPushButton* button : {m_restore, m_readOnly, m_another, m_again, m_own, m_close}) button->setVisible(offered.contains(button));
  setVisible(true);
  update();
}

void LibraryBand::say(const LibraryProblem& problem) {
  QList<QPushButton*> offered;
  m_backup = problem.backup;
  if (!problem.backup.isEmpty()) {
    m_restore->setText(tr("Restore the backup of %1").arg(problem.backupDate));
    const bool damaged = problem.trouble == LibraryTrouble::Corrupt || problem.trouble == LibraryTrouble::NotOurs;
    if (damaged) offered << m_restore;
  }
  if (problem.opening) {
    if (problem.trouble != LibraryTrouble::NotOurs && problem.trouble != LibraryTrouble::Newer) offered << m_again;
    const bool readable = problem.trouble == LibraryTrouble::ReadOnly || problem.trouble == LibraryTrouble::Busy ||
                          problem.trouble == LibraryTrouble::Full || problem.trouble == LibraryTrouble::Corrupt;
    if (readable) offered << m_readOnly;
    offered << m_another;
  } else {
    if (problem.trouble == LibraryTrouble::ReadOnly || problem.trouble == LibraryTrouble::Full || problem.trouble == LibraryTrouble::Io)
      offered << m_another;
    offered << m_close;
  }
  show(problem.sentence, Status::Fails, offered);
}

void LibraryBand::tell(const QString& sentence) { show(sentence, Status::NotKnown, {m_close}); }

void LibraryBand::tellInvented() {
  show(tr("These recipes, readings and initials are invented, to look at. They lie in a library of their own; yours is untouched."),
       Status::NotKnown, {m_own});
}

void LibraryBand::clear() { setVisible(false); }

void LibraryBand::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), palette().color(QPalette::AlternateBase));
  painter.fillRect(0, 0, space::edgeStripe, height(), stateColour(m_status, palette()));
}

LibraryFooter::LibraryFooter(QWidget* parent)
    : QWidget(parent),
      m_path(new ElidedLabel),
      m_move(new QPushButton(tr("Move…"))),
      m_keep(new QPushButton(tr("Keep this plan as a recipe…"))),
      m_give(new QPushButton(tr("Give to others…"))),
      m_bringIn(new QPushButton(tr("Bring in…"))) {
  setObjectName(QStringLiteral("libraryFooter"));
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::Base);
  m_path->setObjectName(QStringLiteral("libraryPath"));
  m_path->setForegroundRole(QPalette::PlaceholderText);
  m_move->setObjectName(QStringLiteral("moveLibrary"));
  m_move->setToolTip(tr("Copy the library with its photos to another place, such as a share, and go on there."));
  auto* another = new QPushButton(tr("Use another…"));
  another->setObjectName(QStringLiteral("useAnother"));
  another->setToolTip(tr("Open a library that lies elsewhere, or begin a new one."));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(space::large, 6, space::large, 6);
  row->setSpacing(space::medium);
  m_keep->setObjectName(QStringLiteral("keepPlan"));
  row->addWidget(m_keep);
  m_give->setObjectName(QStringLiteral("give"));
  m_give->setToolTip(tr("Write recipes, or all there is, into a file for another library."));
  m_bringIn->setObjectName(QStringLiteral("bringIn"));
  m_bringIn->setToolTip(tr("Read such a file: it is compared first, and nothing is overwritten unasked. It may also be dropped here."));
  row->addWidget(m_give);
  row->addWidget(m_bringIn);
  row->addSpacing(space::medium);
  row->addWidget(m_path, 1);
  row->addWidget(m_move);
  row->addWidget(another);
  connect(m_move, &QPushButton::clicked, this, &LibraryFooter::moveChosen);
  connect(another, &QPushButton::clicked, this, &LibraryFooter::anotherChosen);
  connect(m_keep, &QPushButton::clicked, this, &LibraryFooter::keepChosen);
  connect(m_give, &QPushButton::clicked, this, &LibraryFooter::giveChosen);
  connect(m_bringIn, &QPushButton::clicked, this, &LibraryFooter::bringInChosen);
}

void LibraryFooter::setState(const LibraryState& state) {
  const QString path = QDir::toNativeSeparators(state.path);
  if (state.invented) {
    m_path->setText(tr("Library: invented examples"));
  } else if (!state.open) {
    m_path->setText(tr("Library, not open: %1").arg(path));
  } else {
    m_path->setText(state.readOnly ? tr("Library, to read only: %1").arg(path) : tr("Library: %1").arg(path));
  }
  m_path->setToolTip(path);
  m_move->setEnabled(state.open && !state.invented);
  m_give->setEnabled(state.open);
  m_bringIn->setEnabled(state.open);
  m_keep->setVisible(state.open && !state.readOnly && state.recipes > 0);  // an empty library offers it in the middle
}

}  // namespace bw
