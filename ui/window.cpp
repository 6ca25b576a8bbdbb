// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window.h"

#include "ui/fields/icon.h"
#include "ui/main_window.h"
#include "ui/menus.h"
#include "ui/window_place.h"

#include <QApplication>

#include <cstdio>

namespace bw {
namespace {

/// Qt's own chatter is of no use to a person at the terminal; warnings of the program are.
void handleMessage(QtMsgType type, const QMessageLogContext& context, const QString& text) {
  const bool chatter = text.contains(QLatin1String("propagateSizeHints")) || QLatin1String(context.category).startsWith(QLatin1String("qt."));
  if (type == QtDebugMsg || type == QtInfoMsg || (chatter && type == QtWarningMsg)) return;
  std::fprintf(stderr, "%s\n", qUtf8Printable(text));
}

}  // namespace

int runWindow(int argc, char** argv, const std::string& file) {
  qInstallMessageHandler(handleMessage);
  QApplication app(argc, argv);
  QApplication::setApplicationName(QStringLiteral("Barewright"));
  QApplication::setOrganizationName(QStringLiteral("Barewright"));
  QApplication::setApplicationVersion(QStringLiteral(BAREWRIGHT_VERSION));
  QApplication::setWindowIcon(QIcon(QStringLiteral(":/icons/barewright.svg")));
  QApplication::setDesktopFileName(QStringLiteral("barewright"));
  applyChosenTheme();

  MainWindow window({});
  openInPlace(window);
  window.show();
  // A file that was named comes first; what a crash left behind waits for the next start then.
  const bool opened = !file.empty() ? window.openFile(QString::fromStdString(file)) : window.offerRecovered();
  if (!opened) window.openExample();
  return QApplication::exec();
}

}  // namespace bw
