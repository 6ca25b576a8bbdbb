// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/project_check.h"

#include <algorithm>

namespace bw {
namespace {

const std::vector<std::string> componentNames(componentKeys.begin(), componentKeys.end());
constexpr std::size_t mostLayers = 50;

template <class T>
std::vector<std::string> namesOf(const std::vector<T>& list, std::string T::* name) {
  std::vector<std::string> names;
  for (const T& element : list) names.push_back(element.*name);
  return names;
}

template <class T>
bool has(const std::vector<T>& list, const T& value) {
  return std::ranges::find(list, value) != list.end();
}

/// A word, or #rrggbb.
bool isColour(const std::string& text) {
  return !text.starts_with('#') || (text.size() == 7 && text.find_first_not_of("0123456789abcdefABCDEF", 1) == std::string::npos);
}

void addOnce(const std::string& name, std::vector<std::string>& names) {
  if (!has(names, name)) names.push_back(name);
}

/// Walks a project that was read; `path` is where each thing stands.
class Checker {
 public:
  Checker(const Project& project, const Library& shipped, Problems& problems) : m_project(project), m_problems(problems) {
    for (const Library* library : {&project.library, &shipped}) {
      for (const Coating& coating : library->coatings) addOnce(coating.id, m_coatings);
      for (const Substrate& substrate : library->substrates) addOnce(substrate.id, m_substrates);
    }
  }

  void all() {
    distinct("$.machines", "id", namesOf(m_project.machines, &Machine::id));
    distinct("$.plans", "name", namesOf(m_project.plans, &Plan::name));
    distinct("$.part.areas", "name", namesOf(m_project.part.areas, &Area::name));
    distinct("$.library.coatings", "id", namesOf(m_project.library.coatings, &Coating::id));
    distinct("$.library.substrates", "id", namesOf(m_project.library.substrates, &Substrate::id));
    known("$.part.substrate", m_project.part.substrate, "a known substrate", m_substrates);
    coat("$.coat", m_project.coat);
    each("$.part.areas", m_project.part.areas, [this](const std::string& path, const Area& area) {
      if (area.coat) coat(path + ".coat", *area.coat);
    });
    each("$.machines", m_project.machines, [this](const std::string& path, const Machine& value) { machine(path, value); });
    each("$.plans", m_project.plans, [this](const std::string& path, const Plan& value) { plan(path, value); });
    each("$.trials", m_project.trials, [this](const std::string& path, const Trial& trial) {
      if (trial.settings != Settings{}) settings(path + ".settings", trial.settings);
    });
  }

 private:
  template <class T, class Check>
  void each(const std::string& path, const std::vector<T>& list, const Check& check) {
    for (std::size_t i = 0; i < list.size(); ++i) check(elementPath(path, i), list[i]);
  }

  void distinct(const std::string& path, const char* key, const std::vector<std::string>& names) {
    for (std::size_t i = 1; i < names.size(); ++i) {
      const auto end = names.begin() + static_cast<std::ptrdiff_t>(i);
      if (std::find(names.begin(), end, names[i]) == end) continue;
      m_problems.add(elementPath(path, i) + '.' + key, shown(Json(names[i])) + " is taken by an earlier one; a " + key +
                                                           " of its own is accepted");
    }
  }

  void known(const std::string& path, const std::string& name, const char* noun, const std::vector<std::string>& names) {
    if (!has(names, name)) m_problems.add(path, shown(Json(name)) + " is not " + noun + acceptedWords(name, names));
  }

  void coat(const std::string& path, const Coat& layers) {
    if (layers.size() > mostLayers) {
      m_problems.add(path, std::to_string(layers.size()) + " layers are too many; up to " + std::to_string(mostLayers) + " are accepted");
    }
    each(path, layers, [this](const std::string& at, const Layer& layer) {
      known(at + ".coating", layer.coating, "a known coating", m_coatings);
      require(!layer.colour || isColour(*layer.colour), at + ".colour",
              "not a colour; a word, or # and six hexadecimal digits, is accepted");
      for (const auto& [component, presence] : layer.components) {
        known(memberPath(at + ".components", component), component, "a component", componentNames);
      }
    });
  }

  void require(bool good, const std::string& path, const char* message) {
    if (!good) m_problems.add(path, message);
  }

  void machine(const std::string& path, const Machine& machine) {
    distinct(path + ".optics", "id", namesOf(machine.optics, &Optic::id));
    require(machine.scan.maxWidth_m > 0, path + ".scan.max_width_mm", "0 leaves the head no reach; a number above 0 is accepted");
    require(machine.scan.axes == 1 || machine.scan.maxHeight_m > 0, path + ".scan.max_height_mm",
            "missing or 0 (the head has two axes); a number above 0 is accepted");
    const auto& rate = machine.repetitionRate_Hz;
    require(rate[0] <= rate[1], path + ".repetition_rate_kHz", "the lowest rate is above the highest; [lowest, highest] is accepted");
    const std::size_t energies = machine.maxPulseEnergy_J.size();
    require(energies <= 1 || energies == machine.pulseDurations_s.size(), path + ".max_pulse_energy_mJ",
            "not as many energies as pulse_durations_ns; one number, or one beside each duration, is accepted");
    if (machine.kind == MachineKind::Pulsed && !m_problems.touches(path + ".kind")) pulsedMachine(path, machine);
  }

  void pulsedMachine(const std::string& path, const Machine& machine) {
    require(machine.repetitionRate_Hz[0] > 0, path + ".repetition_rate_kHz",
            "missing or 0 (the machine is pulsed); [lowest, highest] above 0 is accepted");
    require(!machine.pulseDurations_s.empty(), path + ".pulse_durations_ns",
            "missing or empty (the machine is pulsed); a list of one or more durations is accepted");
    require(!machine.maxPulseEnergy_J.empty(), path + ".max_pulse_energy_mJ",
            "missing or empty (the machine is pulsed); a number, or one beside each pulse duration, is accepted");
  }

  void plan(const std::string& path, const Plan& plan) {
    each(path + ".steps", plan.steps, [this](const std::string& at, const Step& value) { step(at, value); });
    if (plan.steps.empty() || plan.settings != Settings{}) machineAndSettings(path, plan.machine, plan.settings);
  }

  void step(const std::string& path, const Step& step) {
    machineAndSettings(path, step.machine, step.settings);
    const auto areas = namesOf(m_project.part.areas, &Area::name);
    each(path + ".areas", step.areas,
         [&](const std::string& at, const std::string& name) { known(at, name, "an area of the part", areas); });
    const Machine* machine = findMachine(m_project, step.machine);
    if (machine && step.optic) known(path + ".optic", *step.optic, "an optic of the machine", namesOf(machine->optics, &Optic::id));
  }

  void machineAndSettings(const std::string& path, const std::string& id, const Settings& chosen) {
    known(path + ".machine", id, "a machine of this project", namesOf(m_project.machines, &Machine::id));
    settings(path + ".settings", chosen);
    const Machine* machine = findMachine(m_project, id);
    if (!machine || machine->kind != MachineKind::Pulsed) return;
    require(chosen.repetitionRate_Hz > 0, path + ".settings.repetition_rate_kHz",
            "missing or 0 (the machine is pulsed); a number above 0 is accepted");
    require(chosen.pulseDuration_s > 0, path + ".settings.pulse_duration_ns",
            "missing or 0 (the machine is pulsed); a number above 0 is accepted");
  }

  void settings(const std::string& path, const Settings& settings) {
    const bool swings = settings.pattern == Pattern::Sine || settings.pattern == Pattern::TwoSine;
    const bool stacks = !swings && settings.pattern != Pattern::Line;
    require(settings.width_m > 0, path + ".width_mm", "missing or 0; a number above 0 is accepted");
    require(swings || settings.scanSpeed_m_s > 0, path + ".scan_speed_mm_s",
            "missing or 0 (the pattern runs at a scan speed); a number above 0 is accepted");
    require(!swings || settings.oscillationRate_Hz, path + ".oscillation_rate_Hz",
            "missing (the pattern oscillates); a number above 0 is accepted");
    require(!stacks || settings.lineSpacing_m > 0, path + ".line_spacing_mm",
            "missing or 0 (the pattern stacks lines); a number above 0 is accepted");
    require(settings.travelSpeed_m_s <= 0 || settings.stepOver_m > 0, path + ".step_over_mm",
            "missing or 0 (the hand travels); a number above 0 is accepted");
  }

  const Project& m_project;
  Problems& m_problems;
  std::vector<std::string> m_coatings;
  std::vector<std::string> m_substrates;
};

}  // namespace

void checkProject(const Project& project, const Library& shipped, Problems& problems) { Checker(project, shipped, problems).all(); }

}  // namespace bw
