// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "ui/document/project_document.h"
#include "ui/plots/picked_place.h"

#include <QScrollArea>

#include <memory>
#include <optional>

namespace bw {

class CoatSection;
class CoatTable;
class PathSketch;

/// What goes into a plan, in one scrolling column: part, coat, settings.
class InputsPanel : public QScrollArea {
  Q_OBJECT
 public:
  explicit InputsPanel(ProjectDocument& document, QWidget* parent = nullptr);

  void setAssessment(const std::shared_ptr<const Assessment>& assessment);
  void setStale(bool stale);
  void setPass(int pass);  // of the coat's cross-section; says nothing
  void setPlace(std::optional<PickedPlace> place);

 signals:
  void passChanged(int pass);

 private:
  QWidget* makeCoat();
  QWidget* makeShop();
  void refresh(Changes changes);

  ProjectDocument& m_document;
  CoatSection* m_section;
  CoatTable* m_coat;
  PathSketch* m_sketch;
};

}  // namespace bw
