// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/carry_page.h"

#include "ui/carry/beside_table.h"
#include "ui/carry/carry_lines.h"
#include "ui/library/page_parts.h"
#include "ui/plan/form.h"
#include "ui/style/to_qt.h"

#include <QVBoxLayout>

namespace bw {
namespace {

QString sentenceCase(const std::string& words) {
  QString text = toQt(words);
  if (!text.isEmpty()) text[0] = text[0].toUpper();
  return text;
}

/// What stands where a forecast says nothing.
QString withoutWord(const Forecast& forecast) {
  return forecast.assessment || !forecast.problem.isEmpty() ? CarryPage::tr("not known") : CarryPage::tr("being reckoned…");
}

}  // namespace

CarryPage::CarryPage(const CarryWork& work, QWidget* parent)
    : QWidget(parent), m_work(work), m_carried(new QVBoxLayout), m_forecast(new QVBoxLayout), m_settings(new QVBoxLayout) {
  setObjectName(QStringLiteral("carryPage"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(space::wide, 0, space::wide, space::large);
  column->setSpacing(space::wide);
  for (QVBoxLayout* part : {m_carried, m_forecast, m_settings}) {
    part->setContentsMargins(0, 0, 0, 0);
    part->setSpacing(space::wide);
    column->addLayout(part);
  }
  column->addStretch();
}

void CarryPage::fill(QVBoxLayout* column, const std::vector<QWidget*>& widgets) {
  while (QLayoutItem* item = column->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (QWidget* widget : widgets) {
    if (!widget) continue;
    column->addWidget(widget);
    widget->show();
  }
}

QString CarryPage::machineBefore() const {
  const Machine* machine = mainMachine(m_work.before());
  return machine ? toQt(machine->name) : tr("as it was");
}

QString CarryPage::machineAfter() const { return m_work.machine() ? toQt(m_work.machine()->name) : QString(); }

void CarryPage::showCarried() {
  if (!m_work.problem().isEmpty()) {
    fill(m_carried, {parts::note({m_work.problem()}, Status::Fails, QStringLiteral("carryProblem"))});
    fill(m_settings, {});
    return fill(m_forecast, {});
  }
  if (!m_work.after()) return;  // what is shown stays until the new one is there
  fill(m_carried, {makeNotice(), makeKept()});
  fill(m_settings, {makeSettings()});
  showForecast();
}

void CarryPage::showForecast() {
  if (!m_work.after()) return;
  fill(m_forecast, {makeNumbers(), makeVerdict()});
}

QWidget* CarryPage::makeNotice() const {
  QStringList sentences{tr("Planned, not proven: nobody has tried these settings on the %1. Another machine's proof does not speak for "
                           "it; a patch on scrap or a hidden spot decides.")
                            .arg(machineAfter())};
  sentences << missingRegime(m_work.after()->carried);
  return parts::note(sentences, Status::Near, QStringLiteral("carryNotice"));
}

QWidget* CarryPage::makeKept() const {
  auto* table = new BesideTable({machineBefore(), machineAfter(), tr("kept?")});
  table->setObjectName(QStringLiteral("carriedLines"));
  for (const Carried& one : m_work.after()->carried) {
    table->add(sentenceCase(one.quantity), {toQt(one.before), toQt(one.after), one.kept ? tr("kept") : tr("no: %1").arg(toQt(one.why))});
    table->mark(one.kept ? Status::Meets : Status::Near);
  }
  return parts::section(tr("What is kept, and what had to give"), table);
}

QWidget* CarryPage::makeSettings() const {
  auto* table = new BesideTable({machineBefore(), machineAfter()});
  table->setObjectName(QStringLiteral("carriedSettings"));
  for (const BesideLine& line : settingsBeside(m_work.before(), m_work.after()->version)) {
    table->add(line.name, {line.before.isEmpty() ? tr("none") : line.before, line.after.isEmpty() ? tr("none") : line.after});
  }
  return parts::section(tr("Settings, in the order they are dialled"), table);
}

QWidget* CarryPage::makeNumbers() const {
  const Forecast &before = m_work.forecastBefore(), &after = m_work.forecastAfter();
  auto* content = new QWidget;
  content->setObjectName(QStringLiteral("carriedForecast"));
  auto* column = new QVBoxLayout(content);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::medium);
  const auto say = [](const Forecast& forecast, const QString& text) { return text.isEmpty() ? withoutWord(forecast) : text; };
  auto* table = new BesideTable({machineBefore(), machineAfter()});
  for (const BesideLine& line : predictionsBeside(before.prediction, after.prediction))
    table->add(line.name, {say(before, line.before), say(after, line.after)});
  if (table->isEmpty()) {
    delete table;
  } else {
    column->addWidget(table);
  }
  for (const auto& [forecast, machine] : {std::pair(&before, machineBefore()), std::pair(&after, machineAfter())}) {
    if (!forecast->problem.isEmpty())
      column->addWidget(parts::note({tr("On the %1: %2").arg(machine, forecast->problem)}, Status::NotKnown, QStringLiteral("noForecast")));
  }
  const bool complete = before.complete && after.complete;
  column->addWidget(parts::text(complete ? tr("Each is the span of nine in ten such jobs, both by model version %1, on the recipe's own "
                                              "part and coat.")
                                               .arg(toQt(std::string(modelVersion)))
                                         : tr("Being reckoned; the ranges come last."),
                                QPalette::PlaceholderText));
  return parts::section(tr("What the model expects"), content);
}

QWidget* CarryPage::makeVerdict() const {
  const std::vector<VerdictBeside> lines =
      verdictsBeside(m_work.forecastBefore().assessment.get(), m_work.forecastAfter().assessment.get());
  if (lines.empty()) return nullptr;
  auto* table = new BesideTable({machineBefore(), machineAfter()});
  table->setObjectName(QStringLiteral("carriedVerdict"));
  for (const VerdictBeside& line : lines) {
    table->add(line.question, {});
    table->setState(1, line.before, withoutWord(m_work.forecastBefore()));
    table->setState(2, line.after, withoutWord(m_work.forecastAfter()));
    table->explain(line.message);
  }
  return parts::section(tr("The verdict, with what is said of the %1").arg(machineAfter()), table);
}

}  // namespace bw
