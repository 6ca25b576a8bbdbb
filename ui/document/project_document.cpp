// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/project_document.h"

#include <algorithm>

namespace bw {

Settings& settingsAt(Project& project, ProjectDocument::Place place) {
  Plan& plan = project.plans.at(place.plan);
  return plan.steps.empty() ? plan.settings : plan.steps.at(place.step).settings;
}

ProjectDocument::ProjectDocument(QObject* parent) : QObject(parent) {
  clampPlace();
  connect(&m_stack, &QUndoStack::cleanChanged, this, [this] { emit changed(Change::File); });
}

const Plan& ProjectDocument::plan() const { return m_project.plans.at(m_place.plan); }

std::size_t ProjectDocument::stepCount() const { return std::max<std::size_t>(1, plan().steps.size()); }

const Settings& ProjectDocument::settings() const {
  return plan().steps.empty() ? plan().settings : plan().steps.at(m_place.step).settings;
}

const Machine* ProjectDocument::machine() const {
  return findMachine(m_project, plan().steps.empty() ? plan().machine : plan().steps.at(m_place.step).machine);
}

void ProjectDocument::replace(Project project, const QString& filePath) {
  m_project = std::move(project);
  m_place = {};
  clampPlace();
  m_filePath = filePath;
  m_neverSaved = false;
  m_stack.clear();
  m_stack.setClean();
  emit changed(Change::Everything);
}

void ProjectDocument::setNeverSaved() {
  m_neverSaved = true;
  emit changed(Change::File);
}

void ProjectDocument::setSaved(const QString& filePath) {
  m_filePath = filePath;
  m_neverSaved = false;
  m_stack.setClean();
  emit changed(Change::File);
}

void ProjectDocument::show(Place place) {
  if (place == m_place) return;
  m_place = place;
  clampPlace();
  emit changed(Change::Shown);
}

void ProjectDocument::write(Place place, Changes changes, const std::function<void(Project&)>& writer) {
  const Place before = m_place;
  writer(m_project);
  m_place = place;
  clampPlace();
  if (m_place != before) changes |= Change::Shown;
  emit changed(changes);
}

void ProjectDocument::clampPlace() {
  if (m_project.plans.empty()) m_project.plans.emplace_back();  // the window always shows one
  m_place.plan = std::min(m_place.plan, m_project.plans.size() - 1);
  m_place.step = std::min(m_place.step, stepCount() - 1);
}

}  // namespace bw
