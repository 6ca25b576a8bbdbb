// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/edits.h"

#include "core/assess/assess.h"
#include "core/library/shop_stock.h"
#include "core/scan/frame.h"
#include "core/start/first_guess.h"
#include "ui/document/change_value.h"

#include <QCoreApplication>

#include <algorithm>

namespace bw::edits {
namespace {

struct EditWords {
  Q_DECLARE_TR_FUNCTIONS(EditWords)
};

QString keyFor(EditKind kind, const QString& field) { return kind == EditKind::Step ? field : QString(); }

template <typename T>
void changePart(ProjectDocument& document, const QString& text, T Part::*field, T value) {
  change<T>(document, {text, Change::Part, {}}, [field](Project& project) -> T& { return project.part.*field; }, std::move(value));
}

template <typename T>
void changeLayer(ProjectDocument& document, const QString& text, std::size_t index, T Layer::*field, T value) {
  change<T>(document, {text, Change::Coat, {}}, [=](Project& project) -> T& { return project.coat.at(index).*field; }, std::move(value));
}

template <typename T>
void changeSetting(ProjectDocument& document, const QString& text, EditKind kind, T Settings::*field, T value) {
  const auto place = document.place();
  change<T>(document, {text, Change::Settings, keyFor(kind, text)},
            [=](Project& project) -> T& { return settingsAt(project, place).*field; }, std::move(value));
}

void changeCoat(ProjectDocument& document, const QString& text, Coat coat) {
  change<Coat>(document, {text, Change::Coat, {}}, [](Project& project) -> Coat& { return project.coat; }, std::move(coat));
}

void changePlans(ProjectDocument& document, const QString& text, std::vector<Plan> plans) {
  change<std::vector<Plan>>(document, {text, Change::Plans | Change::Settings, {}},
                            [](Project& project) -> std::vector<Plan>& { return project.plans; }, std::move(plans));
}

void changeWholePart(ProjectDocument& document, const QString& text, EditKind kind, Part part) {
  change<Part>(document, {text, Change::Part, keyFor(kind, text)}, [](Project& project) -> Part& { return project.part; },
               std::move(part));
}

/// For what lies in several places at once.
void changeProject(ProjectDocument& document, ChangeValue<Project>::Description description, Project project) {
  change<Project>(
      document, std::move(description), [](Project& whole) -> Project& { return whole; }, std::move(project));
}

std::string freeName(const Project& project, const std::string& wanted) {
  std::string name = wanted;
  for (int number = 2; findPlan(project, name); ++number) name = wanted + " " + std::to_string(number);
  return name;
}

}  // namespace

void rename(ProjectDocument& document, const std::string& name) {
  change<std::string>(
      document, {EditWords::tr("rename the part"), Change::Name, {}}, [](Project& project) -> std::string& { return project.name; }, name);
}

void setSubstrate(ProjectDocument& document, const std::string& id) {
  changePart(document, EditWords::tr("change the metal"), &Part::substrate, id);
}

void setPartThickness(ProjectDocument& document, Range thickness_m, KnownFrom from, EditKind kind) {
  Part part = document.project().part;
  part.thickness_m = thickness_m;
  part.knownFrom["thickness_mm"] = from;
  changeWholePart(document, EditWords::tr("change the metal's thickness"), kind, std::move(part));
}

void setPartWidth(ProjectDocument& document, double width_m, EditKind kind) {
  Part part = document.project().part;
  part.size_m[0] = width_m;
  changeWholePart(document, EditWords::tr("change the part's width"), kind, std::move(part));
}

void setPartHeight(ProjectDocument& document, double height_m, EditKind kind) {
  Part part = document.project().part;
  part.size_m[1] = height_m;
  changeWholePart(document, EditWords::tr("change the part's height"), kind, std::move(part));
}

void setFinish(ProjectDocument& document, Finish finish) {
  changePart(document, EditWords::tr("change the finish"), &Part::finish, finish);
}

void setBehind(ProjectDocument& document, std::vector<Behind> behind) {
  changePart(document, EditWords::tr("change what lies behind"), &Part::behind, std::move(behind));
}

void setStartTemperature(ProjectDocument& document, double temperature_C, EditKind kind) {
  Part part = document.project().part;
  part.startTemperature_C = temperature_C;
  changeWholePart(document, EditWords::tr("change the start temperature"), kind, std::move(part));
}

void setShop(ProjectDocument& document, const QString& text, const ShopFacts& facts, EditKind kind) {
  Project project = document.project();
  bw::setShop(project, document.place().plan, facts);
  changeProject(document, {text, Change::Shop | Change::Part, keyFor(kind, text)}, std::move(project));
}

void setLimit(ProjectDocument& document, const std::string& name, std::optional<double> limit_C, EditKind kind) {
  Part part = document.project().part;
  if (limit_C) {
    part.limits[name] = *limit_C;
  } else {
    part.limits.erase(name);
  }
  changeWholePart(document, EditWords::tr("change a temperature limit"), kind, std::move(part));
}

void setAreas(ProjectDocument& document, const QString& text, std::vector<Area> areas) {
  changePart(document, text, &Part::areas, std::move(areas));
}

void addLayer(ProjectDocument& document, std::size_t at, Layer layer) {
  Coat coat = document.project().coat;
  coat.insert(coat.begin() + static_cast<std::ptrdiff_t>(std::min(at, coat.size())), std::move(layer));
  changeCoat(document, EditWords::tr("add a layer"), std::move(coat));
}

void removeLayer(ProjectDocument& document, std::size_t index) {
  Coat coat = document.project().coat;
  if (index >= coat.size()) return;
  coat.erase(coat.begin() + static_cast<std::ptrdiff_t>(index));
  changeCoat(document, EditWords::tr("remove a layer"), std::move(coat));
}

void moveLayer(ProjectDocument& document, std::size_t from, std::size_t to) {
  Coat coat = document.project().coat;
  if (from >= coat.size() || to >= coat.size()) return;
  Layer layer = std::move(coat[from]);
  coat.erase(coat.begin() + static_cast<std::ptrdiff_t>(from));
  coat.insert(coat.begin() + static_cast<std::ptrdiff_t>(to), std::move(layer));
  changeCoat(document, EditWords::tr("move a layer"), std::move(coat));
}

void renameLayer(ProjectDocument& document, std::size_t index, const std::string& name) {
  changeLayer(document, EditWords::tr("rename a layer"), index, &Layer::name, name);
}

void setLayerCoating(ProjectDocument& document, std::size_t index, const std::string& coating) {
  changeLayer(document, EditWords::tr("change a layer's coating"), index, &Layer::coating, coating);
}

void setLayerThickness(ProjectDocument& document, std::size_t index, Range thickness_m, KnownFrom from, EditKind kind) {
  Layer layer = document.project().coat.at(index);
  layer.thickness_m = thickness_m;
  layer.knownFrom = from;
  const QString text = EditWords::tr("change a layer's thickness");
  change<Layer>(document, {text, Change::Coat, keyFor(kind, text + QString::number(index))},
                [index](Project& project) -> Layer& { return project.coat.at(index); }, std::move(layer));
}

void setLayerThicknessUnknown(ProjectDocument& document, std::size_t index, const Library& shipped) {
  const Layer& layer = document.project().coat.at(index);
  const Coating* own = findCoating(document.project().library, layer.coating);
  const Coating* coating = own ? own : findCoating(shipped, layer.coating);
  setLayerThickness(document, index, coating ? coating->typicalThickness_m.range : layer.thickness_m, KnownFrom::Unknown);
}

void setLayerKept(ProjectDocument& document, std::size_t index, bool keep) {
  changeLayer(document, keep ? EditWords::tr("keep a layer") : EditWords::tr("strip a layer"), index, &Layer::keep, keep);
}

void setLayerComponents(ProjectDocument& document, std::size_t index, const std::map<std::string, Presence>& found) {
  std::map<std::string, Presence> components = document.project().coat.at(index).components;
  for (const auto& [component, presence] : found) components[component] = presence;
  changeLayer(document, EditWords::tr("enter what a layer holds"), index, &Layer::components, std::move(components));
}

void setSetting(ProjectDocument& document, double Settings::*field, const QString& text, double value, EditKind kind) {
  changeSetting(document, text, kind, field, value);
}

void setPasses(ProjectDocument& document, int passes, EditKind kind) {
  changeSetting(document, EditWords::tr("change the passes"), kind, &Settings::passes, passes);
}

void setOscillationRate(ProjectDocument& document, double rate_Hz, EditKind kind) {
  changeSetting(document, EditWords::tr("change the oscillation rate"), kind, &Settings::oscillationRate_Hz,
                std::optional<double>(rate_Hz));
}

void setPattern(ProjectDocument& document, Pattern pattern) {
  Settings settings = document.settings();
  settings.pattern = pattern;
  if (swings(pattern) && !settings.oscillationRate_Hz && settings.width_m > 0)
    settings.oscillationRate_Hz = settings.scanSpeed_m_s / (2 * settings.width_m);
  applySettings(document, EditWords::tr("change the pattern"), settings);
}

void setOneWay(ProjectDocument& document, bool oneWay) {
  changeSetting(document, oneWay ? EditWords::tr("scan one way") : EditWords::tr("scan back and forth"), EditKind::Whole, &Settings::oneWay,
                oneWay);
}

void setBeamOffInTurns(ProjectDocument& document, bool off) {
  changeSetting(document, off ? EditWords::tr("beam off in turns") : EditWords::tr("beam on in turns"), EditKind::Whole,
                &Settings::beamOffInTurns, off);
}

void setSwathOrder(ProjectDocument& document, SwathOrder order) {
  changeSetting(document, EditWords::tr("change the order of swaths"), EditKind::Whole, &Settings::swathOrder, order);
}

void setSpeedWander(ProjectDocument& document, std::optional<double> wander, EditKind kind) {
  std::optional<Hand> hand = document.plan().hand;
  if (!hand && !wander) return;
  if (!hand) hand = Hand{};
  hand->speedWander = wander;
  const auto at = document.place().plan;
  const QString text = EditWords::tr("change the hand's wander");
  change<std::optional<Hand>>(
      document, {text, Change::Settings, keyFor(kind, text)},
      [at](Project& project) -> std::optional<Hand>& { return project.plans.at(at).hand; }, std::move(hand));
}

void applySettings(ProjectDocument& document, const QString& label, const Settings& settings) {
  const auto place = document.place();
  change<Settings>(document, {label, Change::Settings, {}}, [place](Project& project) -> Settings& { return settingsAt(project, place); },
                   settings);
}

namespace {

/// The shown plan with its shown step on another machine.
Plan planOn(const ProjectDocument& document, const std::string& machine, const Settings& settings) {
  Plan plan = document.plan();
  Step* step = plan.steps.empty() ? nullptr : &plan.steps.at(document.place().step);
  (step ? step->machine : plan.machine) = machine;
  (step ? step->settings : plan.settings) = settings;
  if (step) step->optic.reset();  // it belonged to the machine before
  return plan;
}

}  // namespace

void applyOnMachine(ProjectDocument& document, const QString& label, const std::string& machine, const Settings& settings) {
  const Machine* now = document.machine();
  if (machine.empty() || (now && now->id == machine)) return applySettings(document, label, settings);
  const auto at = document.place().plan;
  change<Plan>(
      document, {label, Change::Plans | Change::Settings, {}}, [at](Project& project) -> Plan& { return project.plans.at(at); },
      planOn(document, machine, settings));
}

void applyRemedy(ProjectDocument& document, const Remedy& remedy) {
  document.show({document.place().plan, remedy.step});
  const QString label = QString::fromStdString(remedy.label);
  if (remedy.newMachine) return applyPlan(document, label, {*remedy.newMachine}, planOn(document, remedy.machine, remedy.settings));
  applyOnMachine(document, label, remedy.machine, remedy.settings);
}

void applyPlan(ProjectDocument& document, const QString& label, const std::vector<Machine>& newMachines, Plan plan) {
  std::vector<Machine> machines = document.project().machines;
  machines.insert(machines.end(), newMachines.begin(), newMachines.end());
  const auto at = document.place().plan;
  if (machines == document.project().machines && plan == document.plan()) return;
  document.undoStack().beginMacro(label);
  change<std::vector<Machine>>(
      document, {label, Change::Machines, {}}, [](Project& project) -> std::vector<Machine>& { return project.machines; },
      std::move(machines));
  change<Plan>(
      document, {label, Change::Plans | Change::Settings, {}}, [at](Project& project) -> Plan& { return project.plans.at(at); },
      std::move(plan));
  document.undoStack().endMacro();
}

void chooseMachine(ProjectDocument& document, const std::string& id) {
  const Machine* before = document.machine();
  const Machine* machine = findMachine(document.project(), id);
  Plan plan = document.plan();
  Step* step = plan.steps.empty() ? nullptr : &plan.steps.at(document.place().step);
  (step ? step->machine : plan.machine) = id;
  // Settings of another kind of machine mean nothing on this one.
  const bool otherKind = machine && (!before || before->kind != machine->kind || before->scan.axes != machine->scan.axes);
  if (otherKind) (step ? step->settings : plan.settings) = firstGuess(*machine);
  const auto at = document.place().plan;
  change<Plan>(
      document, {EditWords::tr("change the machine"), Change::Plans | Change::Settings, {}},
      [at](Project& project) -> Plan& { return project.plans.at(at); }, std::move(plan));
}

void addMachine(ProjectDocument& document, const Machine& machine) {
  std::vector<Machine> machines = document.project().machines;
  machines.push_back(machine);
  document.undoStack().beginMacro(EditWords::tr("take in a machine"));
  change<std::vector<Machine>>(
      document, {EditWords::tr("take in a machine"), Change::Machines, {}},
      [](Project& project) -> std::vector<Machine>& { return project.machines; }, std::move(machines));
  chooseMachine(document, machine.id);
  document.undoStack().endMacro();
}

void takeMachine(ProjectDocument& document, const ShopMachine& card) {
  if (const MachineOrigin* copy = copyOf(document.project(), card)) return chooseMachine(document, copy->machine);
  const TakenMachine taken = takenInto(document.project(), card);
  Project project = document.project();
  if (!findMachine(project, taken.machine.id)) project.machines.push_back(taken.machine);
  std::erase_if(project.machineOrigins, [&](const MachineOrigin& origin) { return origin.machine == taken.machine.id; });
  project.machineOrigins.push_back(taken.origin);
  const QString text = EditWords::tr("add a machine of the shop");
  document.undoStack().beginMacro(text);
  changeProject(document, {text, Change::Machines, {}}, std::move(project));
  chooseMachine(document, taken.machine.id);
  document.undoStack().endMacro();
}

void updateMachine(ProjectDocument& document, const MachineUpdate& update) {
  changeProject(document, {EditWords::tr("update the machine"), Change::Machines | Change::Plans | Change::Settings, {}},
                updated(document.project(), update));
}

void declineUpdate(ProjectDocument& document, const MachineUpdate& update) {
  changeProject(document, {EditWords::tr("keep the machine as it is"), Change::Machines, {}}, declined(document.project(), update));
}

void duplicatePlan(ProjectDocument& document) {
  std::vector<Plan> plans = document.project().plans;
  const std::size_t at = document.place().plan;
  Plan copy = plans.at(at);
  copy.name = freeName(document.project(), copy.name);
  plans.insert(plans.begin() + static_cast<std::ptrdiff_t>(at) + 1, std::move(copy));
  changePlans(document, EditWords::tr("duplicate the plan"), std::move(plans));
  document.show({at + 1, document.place().step});
}

void renamePlan(ProjectDocument& document, const std::string& name) {
  std::vector<Plan> plans = document.project().plans;
  plans.at(document.place().plan).name = name;
  changePlans(document, EditWords::tr("rename the plan"), std::move(plans));
}

void removePlan(ProjectDocument& document) {
  std::vector<Plan> plans = document.project().plans;
  if (plans.size() < 2) return;
  plans.erase(plans.begin() + static_cast<std::ptrdiff_t>(document.place().plan));
  changePlans(document, EditWords::tr("delete the plan"), std::move(plans));
}

}  // namespace bw::edits
