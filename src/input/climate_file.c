/* A climate from a file; one that is in a form of published hours is refused
 * with the command that makes a climate of it. */

#include <stdlib.h>

#include "fail.h"
#include "file.h"
#include "record_form.h"

/* The form of hours that `bothways climate` reads; NULL: none, or one of ours.
 * A logger's names are found in a faulty climate, too, but not at its
 * separator. */
static const bw_form_of_hours *foreign(const char *text)
{
    long line = 0;
    char separator = ',';
    const bw_form_of_hours *form = bw_form_find(&line, &separator, text);
    bool own = form == &bw_form_own || form == &bw_form_public ||
               form == &bw_form_months ||
               (form == &bw_form_logger && separator == ',');
    return own ? NULL : form;
}

bw_status bw_climate_read(bw_climate **out, const char *path, bw_error *err)
{
    char *text = NULL;
    size_t length = 0;
    BW_TRY(bw_file_read(&text, &length, path, "climate", err));
    const bw_form_of_hours *form = foreign(text);
    bw_status status =
        form == NULL
            ? bw_climate_read_text(out, text, path, err)
            : bw_fail(err, BW_ERR_INPUT, path, 1,
                      "no climate file yet, but %s: bothways climate %s "
                      "--output joined.csv makes one of it, with a file beside "
                      "it that has the sun or the rain it lacks",
                      form->title, path);
    free(text);
    return status;
}
