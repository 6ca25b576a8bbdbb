// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/library/library_jobs.h"

#include <QWidget>

namespace bw {

/// The photos of a proof as small pictures; one opens large by click or Enter.
class PhotoStrip : public QWidget {
  Q_OBJECT
 public:
  explicit PhotoStrip(const std::vector<Photo>& photos, QWidget* parent = nullptr);

 signals:
  void opened(const bw::Photo& photo);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void arrange();
  std::vector<QWidget*> m_buttons;
};

/// Shows the photo as large as the screen allows, over `window`. Returns at once.
void showLarge(const Photo& photo, QWidget* window);

}  // namespace bw
