// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/start/start_page.h"

#include "core/files/library_file.h"
#include "core/start/typical_machines.h"
#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/plan/form.h"
#include "ui/plan/part_form.h"
#include "ui/start/colour_list.h"
#include "ui/style/format.h"
#include "ui/style/theme.h"

#include <QButtonGroup>
#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QScrollArea>

#include <algorithm>

namespace bw {
namespace {

constexpr int pageWidth = 1120;
constexpr int titleFont = 22;
constexpr int ownMachine = 1000;  // ids of the answers that are no machine of the list
constexpr int unknownMachine = 1001;

bool isMagnetic(const std::string& id) {
  return id == "mild-steel" || id == "carbon-steel" || id == "galvanised-steel" || id == "cast-iron";
}

QString unknownMetal(Magnet magnet) {
  switch (magnet) {
    case Magnet::Sticks:
      return StartPage::tr("Don't know: some steel or cast iron");
    case Magnet::DoesNotStick:
      return StartPage::tr("Don't know: not magnetic");
    case Magnet::NotTried:
      break;
  }
  return StartPage::tr("Don't know");
}

QWidget* makeCard(const QString& title, const QList<QWidget*>& content) {
  auto* card = new QFrame;
  card->setAutoFillBackground(true);
  card->setBackgroundRole(QPalette::Base);
  auto* column = new QVBoxLayout(card);
  column->setContentsMargins(space::wide, space::large, space::wide, space::wide);
  column->setSpacing(space::medium);
  column->addWidget(new SectionHeader(title));
  for (QWidget* widget : content) column->addWidget(widget);
  column->addStretch();
  return card;
}

QLabel* makeHint(const QString& text) {
  auto* hint = new QuietLabel(text);
  hint->setWordWrap(true);
  return hint;
}

QuantityField* makeField(const char* objectName, QuantityField::Description description) {
  auto* field = new QuantityField(std::move(description));
  field->setObjectName(QLatin1String(objectName));
  return field;
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent) {
  setObjectName(QStringLiteral("startPage"));
  auto* title = new QLabel(tr("Start my part"));
  QFont large = title->font();
  large.setPixelSize(titleFont);
  large.setBold(true);
  title->setFont(large);
  auto* cards = new QHBoxLayout;
  cards->setSpacing(space::large);
  cards->addWidget(makeMetal(), 1);
  cards->addWidget(makeCoat(), 1);
  cards->addWidget(makeMachine(), 1);
  auto* sheet = new QWidget;
  sheet->setMaximumWidth(pageWidth);
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(space::wide, space::wide, space::wide, space::wide);
  column->setSpacing(space::large);
  column->addWidget(title);
  column->addWidget(makeHint(tr("“Don't know” answers every question: the answer is then wider, and says what to find out first.")));
  column->addLayout(cards);
  column->addWidget(makeBehind());
  column->addWidget(makeButtons());
  column->addStretch();
  auto* page = new QWidget;
  auto* row = new QHBoxLayout(page);
  row->setContentsMargins(0, 0, 0, 0);
  row->addStretch();
  row->addWidget(sheet, 100);
  row->addStretch();
  auto* scroll = new QScrollArea;  // a small screen shows it in part
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidgetResizable(true);
  scroll->setWidget(page);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addWidget(scroll);
  reset({});
}

QWidget* StartPage::makeMetal() {
  m_magnet = new QButtonGroup(this);
  auto* tried = new QWidget;
  auto* row = new QHBoxLayout(tried);
  row->setContentsMargins(0, 0, 0, 0);
  const std::pair<Magnet, QString> answers[] = {
      {Magnet::Sticks, tr("sticks")}, {Magnet::DoesNotStick, tr("does not")}, {Magnet::NotTried, tr("not tried")}};
  for (const auto& [answer, word] : answers) {
    auto* button = new QRadioButton(word);
    m_magnet->addButton(button, static_cast<int>(answer));
    row->addWidget(button);
  }
  row->addStretch();
  m_metal = new Chooser(tr("Metal"), tr("What is under the coat."));
  m_metal->setObjectName(QStringLiteral("startMetal"));
  m_thickness = makeField("startThickness", {tr("Thickness"), tr("Thickness of the bare metal; a range such as 0,8..1,2 will do."),
                                             quantities::length, 5e-5, 1, 1e-4, true, true});
  auto* form = new Form;
  form->addRow(tr("Metal"), m_metal);
  form->addRow(tr("Thickness"), m_thickness);
  connect(m_magnet, &QButtonGroup::idClicked, this, &StartPage::offerMetals);
  return makeCard(tr("1  What metal, how thick?"),
                  {makeHint(tr("Hold a magnet to it: it sticks to steel and cast iron; to aluminium, brass, copper and most stainless it does not.")),
                   tried, form});
}

void StartPage::offerMetals() {
  const Magnet magnet = triedMagnet();
  const QString before = m_metal->id();
  m_metal->clear();
  m_metal->add({}, unknownMetal(magnet));
  for (const Substrate& one : shippedLibrary().substrates) {
    if (one.id.starts_with("unknown-")) continue;
    if (magnet == Magnet::NotTried || (magnet == Magnet::Sticks) == isMagnetic(one.id)) {
      m_metal->add(QString::fromStdString(one.id), QString::fromStdString(one.name), QString::fromStdString(one.note));
    }
  }
  m_metal->setCurrentIndex(std::max(0, m_metal->findData(before)));
}

Magnet StartPage::triedMagnet() const { return static_cast<Magnet>(m_magnet->checkedId()); }

QWidget* StartPage::makeCoat() {
  m_coat = new Chooser(tr("Coat"), tr("What the part is coated with, as far as can be seen."));
  m_coat->setObjectName(QStringLiteral("startCoat"));
  const std::pair<CoatKind, QString> kinds[] = {{CoatKind::Unknown, tr("Don't know")}, {CoatKind::OneCoat, tr("one coat of paint")},
                                                {CoatKind::Several, tr("several coats of paint")}, {CoatKind::Powder, tr("powder coat")},
                                                {CoatKind::Rust, tr("rust or scale")}};
  for (const auto& [kind, word] : kinds) m_coat->add(QString::number(static_cast<int>(kind)), word);
  m_colours = new ColourList;
  m_total = makeField("startTotal", {tr("Total thickness"), tr("Of all layers together, as a paint gauge reads it."), quantities::filmThickness, 1e-6,
                                     0.02, 5e-6, true, true});
  auto* form = new Form;
  form->addRow(tr("Kind"), m_coat);
  form->addRow(tr("Colours"), m_colours);
  form->addRow(tr("All together"), m_total);
  return makeCard(tr("2  What is on it?"), {makeHint(tr("Look at the edge of a chip: name the colours from the top down.")), form});
}

QWidget* StartPage::makeMachine() {
  m_machine = new QButtonGroup(this);
  auto* list = new QWidget;
  m_machineList = new QVBoxLayout(list);
  m_machineList->setContentsMargins(0, 0, 0, 0);
  m_machineList->setSpacing(space::small);
  m_kind = new Chooser(tr("Kind"), tr("Pulsed lasers strike many short blows; continuous ones burn steadily."));
  m_kind->add(QString::number(static_cast<int>(MachineKind::Pulsed)), tr("pulsed"));
  m_kind->add(QString::number(static_cast<int>(MachineKind::Continuous)), tr("continuous"));
  m_watts = makeField("startWatts", {tr("Power"), tr("The machine's rated power."), quantities::power, 1, 20000, 50});
  m_spot = makeField("startSpot", {tr("Spot"), tr("Diameter of the spot at focus (1/e²)."), quantities::filmThickness, 5e-6, 0.02, 1e-5});
  m_watts->setValue(200);
  m_spot->setValue(100e-6);
  auto* form = new Form;
  form->addRow(tr("Kind"), m_kind);
  form->addRow(tr("Power"), m_watts);
  form->addRow(tr("Spot"), m_spot);
  m_own = form;
  connect(m_machine, &QButtonGroup::idClicked, this, [this](int id) { m_own->setVisible(id == ownMachine); });
  return makeCard(tr("3  Which machine?"), {list, m_own});
}

/// The shop's own stand in the place of the project's copies of them, and of the typical ones they were made from.
std::vector<StartPage::Offered> StartPage::offered() const {
  std::vector<Offered> list;
  const auto name = [](const Machine& machine) {
    return tr("%1, spot %2").arg(QString::fromStdString(machine.name), format::micrometres(machine.spotDiameter_m));
  };
  const auto inShop = [this](const std::string& id) {
    return std::ranges::any_of(m_stock.machines, [&](const ShopMachine& card) { return card.machine.id == id; });
  };
  const auto isCopy = [this](const Machine& machine) {
    return std::ranges::any_of(m_stock.machines, [&](const ShopMachine& card) {
      const MachineOrigin* copy = copyOf(m_open, card);
      return copy && copy->machine == machine.id;
    });
  };
  for (const ShopMachine& card : m_stock.machines) {
    const TakenMachine taken = takenInto({}, card);
    list.push_back({tr("%1 (my shop)").arg(name(card.machine)), taken.machine, taken.origin});
  }
  for (const Machine& machine : m_open.machines) {
    if (!isCopy(machine)) list.push_back({name(machine), machine, {}});
  }
  for (const Machine& machine : typicalMachines()) {
    if (!inShop(machine.id) && !findMachine(m_open, machine.id)) list.push_back({name(machine), machine, {}});
  }
  return list;
}

void StartPage::offerMachines() {
  m_offered = offered();
  for (QAbstractButton* button : m_machine->buttons()) delete button;
  const auto offer = [this](const QString& text, int id) {
    auto* button = new QRadioButton(text);
    m_machine->addButton(button, id);
    m_machineList->addWidget(button);
  };
  for (std::size_t index = 0; index < m_offered.size(); ++index) offer(m_offered[index].text, static_cast<int>(index));
  offer(tr("Another: kind, power, spot"), ownMachine);
  offer(tr("Don't know yet"), unknownMachine);
  m_machine->button(0)->setChecked(true);
  m_own->hide();
}

QWidget* StartPage::makeBehind() {
  auto* boxes = new QWidget;
  auto* grid = new QGridLayout(boxes);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(space::wide);
  grid->setVerticalSpacing(space::small);
  constexpr int columns = 5;
  for (const Behind behind : behindsInOrder()) {
    if (behind == Behind::Unknown) continue;  // nothing ticked
    auto* box = new QCheckBox(behindWord(behind));
    const int at = static_cast<int>(m_behind.size());
    grid->addWidget(box, at / columns, at % columns);
    connect(box, &QCheckBox::clicked, this, [this, behind](bool on) {
      for (const auto& [other, what] : m_behind)
        if (on && what != behind && (standsAlone(behind) || standsAlone(what))) other->setChecked(false);
    });
    box->setObjectName(QStringLiteral("startBehind%1").arg(at));
    m_behind.emplace_back(box, behind);
  }
  grid->setColumnStretch(columns, 1);
  m_zinc = new QCheckBox(tr("zinc under the coat, which must stay"));
  m_zinc->setObjectName(QStringLiteral("startZinc"));
  return makeCard(tr("What must not be hurt?"),
                  {makeHint(tr("Behind the metal; nothing ticked means: don't know.")), boxes, m_zinc});
}

QWidget* StartPage::makeButtons() {
  auto* show = new QPushButton(tr("Show me"));
  show->setObjectName(QStringLiteral("showMe"));
  show->setProperty("primary", true);
  auto* back = new QPushButton(tr("Back"));
  back->setObjectName(QStringLiteral("startBack"));
  auto* buttons = new QWidget;
  auto* row = new QHBoxLayout(buttons);
  row->setContentsMargins(0, 0, 0, 0);
  row->addStretch();
  row->addWidget(back);
  row->addWidget(show);
  for (QPushButton* button : {show, back}) button->setMinimumSize(112, 32);
  connect(show, &QPushButton::clicked, this, [this] { emit ready(project()); });
  connect(back, &QPushButton::clicked, this, &StartPage::cancelled);
  return buttons;
}

Project StartPage::project() const {
  Project project = startProject(answers(), shippedLibrary());
  seedFrom(m_stock.facts, project);
  return project;
}

void StartPage::setStock(const ShopStock& stock) {
  if (stock == m_stock) return;
  m_stock = stock;
  offerMachines();
}

void StartPage::reset(const Project& open) {
  for (QuantityField* field : findChildren<QuantityField*>()) field->dropTyped();
  m_magnet->button(static_cast<int>(Magnet::NotTried))->setChecked(true);
  m_metal->clear();
  offerMetals();
  m_thickness->setUnknown();
  m_coat->setCurrentIndex(0);
  m_colours->clear();
  m_total->setUnknown();
  for (const auto& [box, behind] : m_behind) box->setChecked(false);
  m_zinc->setChecked(false);
  m_open = open;
  offerMachines();
}

StartAnswers StartPage::answers() const {
  StartAnswers answers;
  answers.substrate = m_metal->id().toStdString();
  answers.magnet = triedMagnet();
  answers.thickness_m = m_thickness->value();
  answers.coat = static_cast<CoatKind>(m_coat->id().toInt());
  answers.colours = m_colours->colours();
  answers.coatTotal_m = m_total->value();
  chooseMachine(answers);
  for (const auto& [box, behind] : m_behind) {
    if (box->isChecked()) answers.behind.push_back(behind);
  }
  answers.keepsZinc = m_zinc->isChecked();
  return answers;
}

void StartPage::chooseMachine(StartAnswers& answers) const {
  const int id = m_machine->checkedId();
  if (id == ownMachine)
    answers.machine = machineLike(static_cast<MachineKind>(m_kind->id().toInt()), m_watts->value()->likely, m_spot->value()->likely);
  if (id < 0 || static_cast<std::size_t>(id) >= m_offered.size()) return;
  const Offered& chosen = m_offered[static_cast<std::size_t>(id)];
  answers.machine = chosen.machine;
  answers.machineOrigin = chosen.origin;
}

}  // namespace bw
