/* The result tables of the contract: header rows fixed, one row a fact.
 * Nine significant digits, so that a reader can redo the sums. */

#include <math.h>
#include <stdio.h>

#include "bothways/report.h"
#include "csv_parts.h"
#include "fail.h"
#include "layers.h"
#include "names.h"

enum { DIGITS = 9, HOURS_A_DAY = 24, HOURS_A_YEAR = 8760 };

typedef void print_rows(bw_page *page, const bw_assessment *assessment);

/* Fields of a row are put one by one; `first` ones start the line. */
static void text_field(bw_page *page, const char *text)
{
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, text);
}

static void number_field(bw_page *page, double value)
{
    bw_write_text(&page->out, ",");
    bw_write_number(&page->out, value, DIGITS);
}

static void optional_field(bw_page *page, bool known, double value)
{
    number_field(page, known ? value : (double)NAN);
}

static void start_row(bw_page *page, const bw_assessment *assessment,
                      const char *section)
{
    bw_write_field(&page->out, assessment->assembly->id);
    text_field(page, section);
}

static void end_row(bw_page *page)
{
    bw_write_text(&page->out, "\n");
}

static void verdict_rows(bw_page *page, const bw_assessment *assessment)
{
    start_row(page, assessment, "all");
    bw_write_text(&page->out, ",overall,all that decide,,,,,");
    bw_write_field(&page->out, bw_verdict_text(assessment->verdict));
    text_field(page, assessment->verdict_reason);
    bw_write_text(&page->out, ",\n");
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        start_row(page, assessment, c->section);
        text_field(page, c->criterion);
        text_field(page, c->screening
                             ? bw_phrase(page, "%s (screening)", c->method)
                             : c->method);
        optional_field(page, c->has_value, c->value);
        text_field(page, c->unit);
        optional_field(page, c->has_limit, c->limit);
        optional_field(page, c->has_value && c->has_limit, c->margin);
        text_field(page, bw_verdict_text(c->verdict));
        text_field(page, c->reason);
        text_field(page, c->rule);
        end_row(page);
    }
}

static void layer_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *section = &assessment->section[i];
        double sum = 0.0;
        for (size_t k = 0; k < section->section->slab_count; k++) {
            const bw_slab *slab = &section->section->slab[k];
            bw_slab_values v = bw_slab_look(assessment->assembly, section, k);
            sum += v.sd;
            start_row(page, assessment, section->section->name);
            number_field(page, (double)slab->layer + 1.0);
            text_field(page, v.layer->id);
            text_field(page, slab->material->id);
            number_field(page, slab->thickness);
            optional_field(page, v.has_lambda, v.lambda);
            number_field(page, v.resistance);
            optional_field(page, v.has_mu, v.mu);
            number_field(page, v.sd);
            number_field(page, sum);
            text_field(page, bw_evidence_text(v.layer->evidence));
            text_field(page, bw_slab_sources(page, &v, false));
            end_row(page);
        }
    }
}

static void plane_rows(bw_page *page, const bw_assessment *assessment,
                       const bw_section *section, const bw_run *run, int month)
{
    const bw_monthly_result *result = run->result;
    for (size_t i = 0; i < result->plane_count; i++) {
        const bw_plane *plane = &result->plane[i];
        const bw_plane_month *m = &plane->month[month];
        size_t slab = 0;
        bool has_slab = bw_plane_slab(plane->at, &slab) &&
                        slab < result->slab_count;
        start_row(page, assessment, section->name);
        text_field(page, run->name);
        number_field(page, month + 1.0);
        bw_write_text(&page->out, ",");
        bw_plane_id(&page->out, assessment->assembly, section, plane->at);
        number_field(page, m->sd_from_outside);
        number_field(page, m->theta);
        number_field(page, m->saturation_pressure);
        number_field(page, m->vapour_pressure);
        number_field(page, m->relative_humidity * 100.0);
        number_field(page, m->condensation);
        number_field(page, m->accumulated);
        optional_field(page, has_slab,
                       has_slab ? result->layer_sd[slab][month] : 0.0);
        end_row(page);
    }
}

static void monthly_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *section = &assessment->section[i];
        bw_run runs[BW_RUN_COUNT];
        size_t count = bw_runs(runs, section);
        for (size_t k = 0; k < count; k++)
            for (int month = 0; month < BW_MONTHS; month++)
                plane_rows(page, assessment, section->section, &runs[k], month);
    }
}

/* The open wall goes by the section's name alone, so that a reader who looks
 * for a section finds twelve rows; other places add theirs. */
static const char *surface_name(bw_page *page, const bw_section *section,
                                size_t index, const char *where)
{
    return index == 0 ? section->name
                      : bw_phrase(page, "%s:%s", section->name, where);
}

static void surface_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *section = &assessment->section[i];
        for (size_t k = 0; k < section->surface_count; k++) {
            const bw_surface_result *surface = &section->surface[k];
            for (int month = 0; month < BW_MONTHS; month++) {
                const bw_surface_month *m = &surface->month[month];
                start_row(
                    page, assessment,
                    surface_name(page, section->section, k, surface->where));
                number_field(page, month + 1.0);
                number_field(page, m->theta_e);
                number_field(page, m->p_e);
                number_field(page, m->theta_i);
                number_field(page, m->p_i);
                number_field(page, m->theta_si);
                number_field(page, m->rh_si * 100.0);
                optional_field(page, m->meaningful, m->frsi_required);
                number_field(page, surface->frsi);
                end_row(page);
            }
        }
    }
}

static void period_total(bw_page *page, const bw_assessment *assessment,
                         const char *section, const char *what,
                         const bw_period_result *period)
{
    start_row(page, assessment, section);
    text_field(page, what);
    bw_write_text(&page->out, ",");
    optional_field(page, period->assessed, period->condensed);
    optional_field(page, period->assessed, period->evaporable);
    optional_field(page, period->assessed, period->reserve);
    end_row(page);
}

static void period_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section *section = assessment->section[i].section;
        const bw_period_result *period = &assessment->section[i].period;
        size_t planes = period->assessed ? period->plane_count : 0;
        for (size_t k = 0; k < planes; k++) {
            const bw_period_plane *plane = &period->plane[k];
            start_row(page, assessment, section->name);
            bw_write_text(&page->out, ",");
            bw_plane_id(&page->out, assessment->assembly, section, plane->at);
            number_field(page, plane->sd_from_outside);
            number_field(page, plane->condensed);
            number_field(page, plane->evaporable);
            number_field(page, plane->evaporable - plane->condensed);
            end_row(page);
        }
        if (!period->assessed)
            period_total(page, assessment, section->name, "not assessed",
                         period);
        else if (planes == 0)
            period_total(page, assessment, section->name, "critical plane",
                         period);
        else if (planes > 1)
            period_total(page, assessment, section->name, "total", period);
    }
}

/* "10-01 07:00": month, day and hour of a year without a leap day, so many
 * hours after the start of its first month. */
static const char *hour_name(bw_page *page, int first_month, size_t hour)
{
    int month = first_month;
    size_t left = hour;
    for (;;) {
        size_t hours = (size_t)(bw_month_seconds(month) / 3600.0 + 0.5);
        if (left < hours)
            break;
        left -= hours;
        month = (month + 1) % BW_MONTHS;
    }
    return bw_phrase(page, "%02d-%02zu %02zu:00", month + 1,
                     left / HOURS_A_DAY + 1, left % HOURS_A_DAY);
}

/* Place k over the hours from `first` to before `end`: means, and the mould
 * index at the end. */
static bw_hour_row mean_of(const bw_transient_result *t, size_t k, size_t first,
                           size_t end)
{
    bw_hour_row sum = {0};
    for (size_t hour = first; hour < end; hour++) {
        const bw_hour_row *row = &t->hour[hour * t->monitor_count + k];
        sum.theta += row->theta;
        sum.phi += row->phi;
        sum.water_content += row->water_content;
        sum.mould = row->mould;
    }
    double hours = (double)(end - first);
    sum.theta /= hours;
    sum.phi /= hours;
    sum.water_content /= hours;
    return sum;
}

static void step_rows(bw_page *page, const bw_assessment *assessment,
                      const bw_section_assessment *section,
                      const char *const *place, size_t first, size_t end)
{
    const bw_transient_result *t = &section->transient;
    const double *total = t->hour_total_water;
    const char *time = hour_name(page, t->first_month, end);
    for (size_t k = 0; k < t->monitor_count; k++) {
        bw_hour_row row = mean_of(t, k, first, end);
        start_row(page, assessment, section->section->name);
        text_field(page, time);
        text_field(page, place[k]);
        number_field(page, row.theta);
        number_field(page, row.phi * 100.0);
        number_field(page, row.water_content);
        number_field(page, row.mould);
        optional_field(page, total != NULL,
                       total != NULL ? total[end - 1] : 0.0);
        end_row(page);
    }
}

static void section_hours(bw_page *page, const bw_assessment *assessment,
                          const bw_section_assessment *section, size_t step)
{
    const bw_transient_result *t = &section->transient;
    const char **place = BW_NEW(&page->arena, const char *, t->monitor_count);
    if (place == NULL) {
        page->no_memory = true;
        return;
    }
    for (size_t k = 0; k < t->monitor_count; k++)
        place[k] = bw_monitor_text(page, t, k);
    for (size_t hour = 0; hour < t->hour_count; hour += step) {
        size_t left = t->hour_count - hour;
        step_rows(page, assessment, section, place, hour,
                  hour + (left < step ? left : step));
    }
}

static void hour_rows(bw_page *page, const bw_assessment *assessment,
                      size_t step)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *section = &assessment->section[i];
        if (section->has_transient && section->transient.hour != NULL)
            section_hours(page, assessment, section, step);
    }
}

static void hourly_rows(bw_page *page, const bw_assessment *assessment)
{
    hour_rows(page, assessment, 1);
}

static void convergence_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *section = &assessment->section[i];
        const bw_transient_convergence *c = &section->convergence;
        if (!section->has_convergence)
            continue;
        start_row(page, assessment, section->section->name);
        number_field(page, c->theta_time);
        number_field(page, 100.0 * c->phi_time);
        number_field(page, c->water_time);
        number_field(page, c->theta_grid);
        number_field(page, 100.0 * c->phi_grid);
        number_field(page, c->water_grid);
        number_field(page, (double)c->cells);
        number_field(page, (double)c->steps);
        end_row(page);
    }
}

static const struct table {
    const char *file, *header;
    print_rows *rows;
} tables[BW_TABLE_COUNT] = {
    [BW_TABLE_VERDICT] = {"verdict.csv",
                          "assembly,section,criterion,method,value,unit,limit,"
                          "margin,verdict,reason,source",
                          verdict_rows},
    [BW_TABLE_LAYERS] = {"layers.csv",
                         "assembly,section,position,layer,material,"
                         "thickness_m,lambda_W_mK,resistance_m2K_W,mu,sd_m,"
                         "cumulative_sd_from_outside_m,evidence,source",
                         layer_rows},
    [BW_TABLE_MONTHLY] = {"monthly.csv",
                          "assembly,section,run,month,interface,"
                          "sd_from_outside_m,temperature_C,"
                          "saturation_pressure_Pa,vapour_pressure_Pa,"
                          "relative_humidity_pct,condensation_kg_m2,"
                          "accumulated_kg_m2,layer_sd_m",
                          monthly_rows},
    [BW_TABLE_SURFACE] = {"surface.csv",
                          "assembly,section,month,outdoor_temperature_C,"
                          "outdoor_vapour_pressure_Pa,indoor_temperature_C,"
                          "indoor_vapour_pressure_Pa,surface_temperature_C,"
                          "surface_relative_humidity_pct,frsi_required,frsi",
                          surface_rows},
    [BW_TABLE_PERIOD] = {"period.csv",
                         "assembly,section,interface,sd_from_outside_m,"
                         "condensed_kg_m2,evaporable_kg_m2,reserve_kg_m2",
                         period_rows},
    [BW_TABLE_CONVERGENCE] = {"convergence.csv",
                              "assembly,section,time_temperature_K,"
                              "time_relative_humidity_pct,time_water_kg_m2,"
                              "cells_temperature_K,"
                              "cells_relative_humidity_pct,cells_water_kg_m2,"
                              "cells,steps",
                              convergence_rows},
    [BW_TABLE_WETTING] = {"wetting.csv",
                          "assembly,section,way,place,water_kg_m2,month,"
                          "months,place_months,left_kg_m2,mould_index,"
                          "mould_index_dry,followed_months",
                          bw_csv_wetting_rows},
    [BW_TABLE_DAMAGE] =
        {"damage.csv",
         "assembly,section,place,layer,mould_class,mould_index,"
         "mould_index_slow_decline,hours_above_80,"
         "hours_above_90,hours_above_95,standing_water_kg_m2,"
         "standing_water_month,standing_water_hours,"
         "first_year_wood_moisture_pct,wood_moisture_pct,"
         "wood_moisture_limit_pct,hours_above_wood_limit,"
         "weeks_to_wood_limit,first_year_days_above_timber_line,"
         "days_above_timber_line,first_year_decay_dose_d,"
         "decay_dose_d,service_decay_dose_d",
         bw_csv_damage_rows},
    [BW_TABLE_HOURLY] = {"hourly.csv",
                         "assembly,section,time,position,temperature_C,"
                         "relative_humidity_pct,water_content_kg_m3,"
                         "mould_index,total_water_kg_m2",
                         hourly_rows},
};

const char *bw_table_file(bw_table table)
{
    size_t i = (size_t)table;
    return i < BW_TABLE_COUNT ? tables[i].file : "";
}

static void start_table(bw_page *page, bw_table table, bw_sink *sink,
                        void *payload)
{
    *page = (bw_page){.width = 100};
    bw_writer_start(&page->out, sink, payload);
    bw_write_text(&page->out, tables[table].header);
    bw_write_text(&page->out, "\n");
}

bw_status bw_report_table(const bw_assessment *assessment, bw_table table,
                          bw_sink *sink, void *payload, bw_error *err)
{
    if ((size_t)table >= BW_TABLE_COUNT)
        return bw_fail(err, BW_ERR_DOMAIN, NULL, 0, "there is no table %d",
                       (int)table);
    bw_page page;
    start_table(&page, table, sink, payload);
    tables[table].rows(&page, assessment);
    return bw_page_finish(&page, tables[table].file, err);
}

bw_status bw_report_hours(const bw_assessment *assessment, size_t step,
                          bw_sink *sink, void *payload, bw_error *err)
{
    if (step < 1 || step > HOURS_A_YEAR)
        return bw_fail(err, BW_ERR_DOMAIN, NULL, 0,
                       "a step of %zu h is not within 1 to %d h", step,
                       HOURS_A_YEAR);
    bw_page page;
    start_table(&page, BW_TABLE_HOURLY, sink, payload);
    hour_rows(&page, assessment, step);
    return bw_page_finish(&page, tables[BW_TABLE_HOURLY].file, err);
}
