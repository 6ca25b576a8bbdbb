// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QWidget>

class QLabel;

namespace bw {

class ShopForm;

/// "Air 20 °C. Extraction 900 m³/h. 2 people, eyewear for 2."
QString shopSentence(const Project& project, const Plan& plan);

/// Room, people and prices of the project: sentences, and folded under them the fields.
class ShopSection : public QWidget {
  Q_OBJECT
 public:
  explicit ShopSection(ProjectDocument& document, QWidget* parent = nullptr);

 signals:
  void unfolded();

 private:
  void refresh(Changes changes);

  ProjectDocument& m_document;
  QLabel* m_sentence;
  ShopForm* m_form;
};

}  // namespace bw
