// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipes/applied_recipe.h"

#include "core/library/differences.h"
#include "ui/library/recipe_words.h"
#include "ui/library/setting_lines.h"
#include "ui/style/to_qt.h"

#include <QCoreApplication>

#include <algorithm>

namespace bw {
namespace {

struct ApplyWords {
  Q_DECLARE_TR_FUNCTIONS(ApplyWords)
};

class Applying {
 public:
  Applying(const Project& project, const Plan& plan, const RecipeVersion& recipe) : m_project(project), m_before(plan), m_recipe(recipe) {
    m_applied.plan = recipe.plan;
    m_applied.plan.name = plan.name;
    m_applied.plan.hand = plan.hand;
    m_applied.plan.extraction = plan.extraction;  // the shop's own
  }

  AppliedRecipe result() {
    takeMachines();
    for (Step& step : m_applied.plan.steps) fit(step);
    compareSteps();
    compareRest();
    return std::move(m_applied);
  }

 private:
  void takeMachines() {
    for (const Machine& machine : m_recipe.machines) {
      const Machine* own = findMachine(m_project, machine.id);
      if (!own) {
        m_applied.machines.push_back(machine);
        m_applied.notes << ApplyWords::tr("The machine %1 is taken into the project.").arg(toQt(machine.name));
      } else if (const auto different = differences(machine, *own); !different.empty()) {
        m_applied.notes << ApplyWords::tr("The machine %1 of this project is another than the recipe's and stays: %2%3.")
                               .arg(toQt(own->name), toQt(inWords(different.front())),
                                    different.size() > 1 ? ApplyWords::tr(" and %1 more").arg(different.size() - 1) : QString());
      }
    }
  }

  void fit(Step& step) {
    const auto known = [this](const std::string& name) {
      return std::ranges::find(m_project.part.areas, name, &Area::name) != m_project.part.areas.end();
    };
    if (std::ranges::any_of(step.areas, [&](const std::string& name) { return !known(name); })) {
      std::erase_if(step.areas, [&](const std::string& name) { return !known(name); });
      m_applied.notes << ApplyWords::tr("Step “%1” names areas this part does not have; it goes over %2.")
                             .arg(toQt(step.name), step.areas.empty() ? ApplyWords::tr("all areas") : ApplyWords::tr("the others"));
    }
    if (step.until && std::ranges::find(m_project.coat, *step.until, &Layer::name) == m_project.coat.end()) {
      m_applied.notes << ApplyWords::tr("Step “%1” ended at a layer “%2”, which this coat does not have; it goes on to the metal.")
                             .arg(toQt(step.name), toQt(*step.until));
      step.until.reset();
    }
  }

  const Machine* machineOf(const std::string& id, bool after) const {
    if (const Machine* own = findMachine(m_project, id)) return own;
    const auto found = std::ranges::find(m_recipe.machines, id, &Machine::id);
    return after && found != m_recipe.machines.end() ? &*found : nullptr;
  }

  void compare(const QString& what, const QString& now, const QString& then) {
    if (now == then) {
      m_applied.unchanged += now.isEmpty() ? 0 : 1;
    } else {
      m_applied.changes.push_back({what, now, then});
    }
  }

  std::vector<SettingLine> linesOf(const Step* step, bool after) const {
    if (!step) return {};
    const Machine* machine = machineOf(step->machine, after);
    std::vector<SettingLine> lines{{ApplyWords::tr("Machine"), machine ? toQt(machine->name) : words::readable(step->machine)}};
    if (step->optic) lines.push_back({ApplyWords::tr("Optic"), toQt(*step->optic)});
    if (step->before) lines.push_back({ApplyWords::tr("First, by hand"), toQt(*step->before)});
    for (SettingLine& line : settingLines(step->settings, machine)) lines.push_back(std::move(line));
    if (step->until) lines.push_back({ApplyWords::tr("Until"), toQt(*step->until)});
    return lines;
  }

  void compareSteps() {
    const std::vector<Step> before = stepsOf(m_before), after = stepsOf(m_applied.plan);
    const std::size_t count = std::max(before.size(), after.size());
    for (std::size_t i = 0; i < count; ++i) {
      const QString stem = count > 1 ? ApplyWords::tr("Step %1: ").arg(i + 1) : QString();
      const auto old = linesOf(i < before.size() ? &before[i] : nullptr, false);
      const auto fresh = linesOf(i < after.size() ? &after[i] : nullptr, true);
      const auto in = [](const std::vector<SettingLine>& lines, const QString& name) {
        const auto found = std::ranges::find(lines, name, &SettingLine::name);
        return found == lines.end() ? QString() : found->value;
      };
      for (const SettingLine& line : fresh) compare(stem + line.name, in(old, line.name), line.value);
      for (const SettingLine& line : old) {
        if (std::ranges::find(fresh, line.name, &SettingLine::name) == fresh.end()) compare(stem + line.name, line.value, {});
      }
    }
  }

  void compareRest() {
    const auto onOff = [](const std::optional<bool>& on) { return !on ? QString() : *on ? ApplyWords::tr("on") : ApplyWords::tr("off"); };
    const auto degrees = [](const std::optional<double>& value_C) {
      return value_C ? QStringLiteral("%1\u00a0°C").arg(*value_C, 0, 'g', 4) : QString();
    };
    compare(ApplyWords::tr("Air knife"), onOff(m_before.airKnife), onOff(m_applied.plan.airKnife));
    compare(ApplyWords::tr("Cool between passes to"), degrees(m_before.coolTo_C), degrees(m_applied.plan.coolTo_C));
  }

  const Project& m_project;
  const Plan& m_before;
  const RecipeVersion& m_recipe;
  AppliedRecipe m_applied;
};

}  // namespace

AppliedRecipe appliedTo(const Project& project, const Plan& plan, const RecipeVersion& recipe) {
  return Applying(project, plan, recipe).result();
}

}  // namespace bw
