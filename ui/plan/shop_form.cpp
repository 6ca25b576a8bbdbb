// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/shop_form.h"

#include "core/values/shop_bounds.h"
#include "ui/style/theme.h"
#include "ui/style/to_qt.h"

#include <QCheckBox>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>

namespace bw {
namespace {

constexpr int longestCurrency = 12;

QuantityField::Description describedAs(const QString& name, const QString& tip, const Quantity& quantity, const SettingBounds& bounds,
                                       double step) {
  return {name, tip, quantity, bounds.low, bounds.high, step, false, true};
}

QuantityField::Description headCount(const QString& name, const QString& tip) {
  QuantityField::Description described = describedAs(name, tip, quantities::count, bounds::people, 1);
  described.whole = true;
  return described;
}

}  // namespace

ShopForm::ShopForm(Of of, QWidget* parent) : Form(parent), m_of(of) {
  addRoom();
  addExtraction();
  addPeople();
  addPrices();
}

/// Both kinds of form stand in one window.
QString ShopForm::nameOf(const char* name) const { return (m_of == Of::Shop ? QStringLiteral("usual-") : QString()) + QLatin1String(name); }

void ShopForm::addRoom() {
  addGroup(tr("Room"));
  QuantityField::Description air = describedAs(
      tr("Air"), m_of == Of::Shop ? tr("Usual temperature of the air in the shop.") : tr("Temperature of the air around the part."),
      quantities::temperature, bounds::airTemperature_C, 1);
  air.unknown = m_of == Of::Shop;  // a plan is always reckoned in some air
  addNumber(
      "air", tr("Air"), tr("change the shop's temperature"), air, [](ShopFacts & f) -> auto& { return f.site.ambient_C; });
  addNumber(
      "humidity", tr("Humidity"), tr("change the humidity"),
      describedAs(tr("Humidity"), tr("Relative humidity of the air: cold parts get wet in damp air."), quantities::share, bounds::humidity,
                  0.05),
      [](ShopFacts & f) -> auto& { return f.site.humidity; });
  addNumber(
      "supply", tr("Supply"), tr("change the supply"),
      describedAs(tr("Supply"), tr("Power that the socket or the generator gives; the machine must not draw more."), quantities::supply,
                  bounds::supply_W, 100),
      [](ShopFacts & f) -> auto& { return f.site.supply_W; });
  addRow({}, makeFlag("generator", tr("from a generator"), tr("The supply is a generator, not the mains."), tr("change the supply"),
                      [](ShopFacts& f, std::optional<bool> set) { return f.site.generator = set.value_or(f.site.generator); }));
}

void ShopForm::addExtraction() {
  addGroup(tr("Extraction"));
  addRow({}, makeFlag("extraction", tr("planned, at the head"),
                      tr("Fume is caught where it rises; the extraction runs before the beam does."), tr("change the extraction"),
                      [](ShopFacts& f, std::optional<bool> set) { return f.extraction.on = set.value_or(f.extraction.on); }));
  addNumber(
      "extractionFlow", tr("Air flow"), tr("change the extraction"),
      describedAs(tr("Air flow"), tr("What the extraction moves at its nozzle."), quantities::airFlow, bounds::airFlow_m3_s, 50.0 / 3600),
      [](ShopFacts & f) -> auto& { return f.extraction.flow_m3_s; });
  auto* filters = new QWidget;
  auto* column = new QVBoxLayout(filters);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  filters->setToolTip(tr("Stages the fume passes; nothing ticked means: don't know."));
  column->addWidget(makeFilter("sparkTrap", Filter::SparkTrap, tr("spark trap"), tr("Holds hot particles back from the filters.")));
  column->addWidget(makeFilter("fineDust", Filter::FineDust, tr("fine dust"), tr("Holds the fume's fine dust.")));
  column->addWidget(makeFilter("gasFilter", Filter::Gas, tr("gas"), tr("Holds gases and vapours, which pass every dust filter.")));
  addRow(tr("Filters"), filters);
}

void ShopForm::addPeople() {
  addGroup(tr("People"));
  addNumber(
      "people", tr("In the room"), tr("change the people in the room"),
      headCount(tr("People in the room"), tr("Everyone who is there while the beam is on.")),
      [](ShopFacts & f) -> auto& { return f.site.people; });
  addNumber(
      "eyewear", tr("Eyewear for"), tr("change the eyewear"),
      headCount(tr("Eyewear"), tr("How many of them have eyewear for the machine's wavelength.")),
      [](ShopFacts & f) -> auto& { return f.site.eyewear; });
  addNumber(
      "eyewearDensity", tr("Optical density"), tr("change the eyewear"),
      describedAs(tr("Optical density"), tr("Optical density of the weakest eyewear, as printed on it for the wavelength."),
                  quantities::count, bounds::opticalDensity, 1),
      [](ShopFacts & f) -> auto& { return f.site.eyewearDensity; });
  addNumber(
      "masks", tr("Masks for"), tr("change the masks"), headCount(tr("Masks"), tr("How many of them have a mask against fume.")),
      [](ShopFacts & f) -> auto& { return f.site.masks; });
}

void ShopForm::addPrices() {
  addGroup(tr("Price"));
  addCurrency();
  addNumber(
      "machinePerHour", tr("Machine hour"), tr("change the price of an hour"),
      describedAs(tr("Machine hour"), tr("Price of an hour of the machine, where its card names none."), quantities::perHour,
                  bounds::moneyPerHour, 1),
      [](ShopFacts & f) -> auto& { return f.prices.machinePerHour; });
  addNumber(
      "labourPerHour", tr("Labour hour"), tr("change the price of an hour"),
      describedAs(tr("Labour hour"), tr("Price of an hour of work; it is added to the machine's."), quantities::perHour,
                  bounds::moneyPerHour, 1),
      [](ShopFacts & f) -> auto& { return f.prices.labourPerHour; });
}

void ShopForm::addCurrency() {
  m_currency = new QLineEdit;
  m_currency->setObjectName(nameOf("currency"));
  m_currency->setAccessibleName(tr("Currency"));
  m_currency->setToolTip(tr("Stands behind every price."));
  m_currency->setMaxLength(longestCurrency);
  connect(m_currency, &QLineEdit::editingFinished, this, [this] {
    const std::string currency = m_currency->text().trimmed().toStdString();
    if (currency == m_facts.currency) return;
    m_facts.currency = currency;
    emit edited(m_facts, tr("change the currency"), EditKind::Whole);
  });
  addRow(tr("Currency"), m_currency);
}

void ShopForm::addNumber(const char* name, const QString& caption, const QString& text, QuantityField::Description description,
                         Number number) {
  auto* field = new QuantityField(std::move(description));
  field->setObjectName(nameOf(name));
  const auto say = [this, text, number](std::optional<double> value, EditKind kind) {
    number(m_facts) = value;
    emit edited(m_facts, text, kind);
  };
  connect(field, &QuantityField::edited, this, [say](const Range& value, EditKind kind) { say(value.likely, kind); });
  connect(field, &QuantityField::unknownChosen, this, [say] { say(std::nullopt, EditKind::Whole); });
  m_numbers.push_back({field, std::move(number)});
  addRow(caption, field);
}

QCheckBox* ShopForm::makeFlag(const char* name, const QString& word, const QString& tip, const QString& text, Flag flag) {
  auto* box = new QCheckBox(word);
  box->setObjectName(nameOf(name));
  box->setToolTip(tip);
  connect(box, &QCheckBox::clicked, this, [this, text, flag](bool set) {
    flag(m_facts, set);
    emit edited(m_facts, text, EditKind::Whole);
  });
  m_flags.push_back({box, std::move(flag)});
  return box;
}

QCheckBox* ShopForm::makeFilter(const char* name, Filter filter, const QString& word, const QString& tip) {
  return makeFlag(name, word, tip, tr("change the filters"), [filter](ShopFacts& facts, std::optional<bool> set) {
    std::vector<Filter>& filters = facts.extraction.filters;
    if (set) std::erase(filters, filter);
    if (set.value_or(false)) filters.push_back(filter);
    std::ranges::sort(filters);
    return std::ranges::find(filters, filter) != filters.end();
  });
}

void ShopForm::setFacts(const ShopFacts& facts) {
  m_facts = facts;
  for (const NumberField& number : m_numbers) {
    if (const std::optional<double> value = number.number(m_facts))
      number.field->setValue(*value);
    else
      number.field->setUnknown();
  }
  for (const FlagBox& flag : m_flags) flag.box->setChecked(flag.flag(m_facts, std::nullopt));
  if (!m_currency->isModified() || !m_currency->hasFocus()) m_currency->setText(toQt(facts.currency));
}

}  // namespace bw
