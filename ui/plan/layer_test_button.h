// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QPushButton>

#include <map>
#include <optional>

namespace bw {

/// "lead" as a word on screen.
QString componentWord(const std::string& component);

/// What a layer may hold that harms, each with what a test showed: not tested, found, not in it. Tells the answers, and lets them be given.
class LayerTestButton : public QPushButton {
  Q_OBJECT
 public:
  LayerTestButton(ProjectDocument& document, std::size_t layer, QWidget* parent = nullptr);

  void refresh();

 private:
  void fillMenu();
  void addComponent(const std::string& component, std::optional<Presence> known);

  ProjectDocument& m_document;
  std::size_t m_layer;
  std::map<std::string, Presence> m_known;  // of the layer or its coating
};

}  // namespace bw
