// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>

namespace bw {

class Chooser;
class QuantityField;

/// Which part of the work a dose map shows; for a still hand, how long it stands.
class SceneChooser : public QWidget {
  Q_OBJECT

 public:
  explicit SceneChooser(QWidget* parent = nullptr);

  const SceneRequest& request() const { return m_request; }

 signals:
  void chosen();

 private:
  void choose(const SceneRequest& request);

  SceneRequest m_request;
  Chooser* m_scene;
  QuantityField* m_still;
};

}  // namespace bw
