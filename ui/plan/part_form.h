// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"
#include "ui/plan/form.h"

#include <vector>

class QPushButton;

namespace bw {

class Chooser;
class QuantityField;

/// "1.2 mm mild steel, 600 × 400 mm, light etch allowed; paint behind"
QString partSentence(const Project& project);
QString behindWord(Behind behind);
/// All that can lie behind the metal, as it is offered.
const std::vector<Behind>& behindsInOrder();
/// "nothing" and "don't know" stand alone.
bool standsAlone(Behind behind);

/// The part: a sentence, and folded under it the fields it is made of.
class PartForm : public QWidget {
  Q_OBJECT
 public:
  explicit PartForm(ProjectDocument& document, QWidget* parent = nullptr);

 private:
  QWidget* makeFields();
  QWidget* makeSizeFields();
  void addLimits(Form& form);
  void refresh(Changes changes);
  void toggleBehind(Behind behind, bool there);

  ProjectDocument& m_document;
  QToolButton* m_edit;
  QLabel* m_sentence;
  Chooser* m_substrate = nullptr;
  QuantityField* m_thickness = nullptr;
  QuantityField* m_width = nullptr;
  QuantityField* m_height = nullptr;
  Chooser* m_finish = nullptr;
  QPushButton* m_behind = nullptr;
  QuantityField* m_backLimit = nullptr;
  QuantityField* m_start = nullptr;
};

}  // namespace bw
