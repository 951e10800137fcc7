#ifndef BW_COMMAND_TARGETS_H
#define BW_COMMAND_TARGETS_H

/* What this run would replace: no file that is read, and none that it writes
 * itself. */

#include "settings.h"

/* Finds the files that stand where --output, the list beside it, --tables and
 * standard output will write; refuses where two of them are one. */
bw_status targets_find(settings *given, bw_error *err);

/* Refuses them where they would replace this file, which is read. */
bw_status targets_spare(const settings *given, const char *input,
                        bw_error *err);

/* The same of every *.xml in a folder: of materials, of rule sets. */
bw_status targets_spare_folder(const settings *given, const char *folder,
                               bw_error *err);

/* "FOLDER/FILE", to be freed; NULL: no memory. */
char *path_in(const char *folder, const char *file);

/* "SHEET.sha256", where the list of digests goes; to be freed; NULL: no
 * memory. */
char *path_beside(const char *sheet);

#endif
