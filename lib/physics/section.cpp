#include "physics/section.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/fields.hpp"
#include "physics/section_shape.hpp"

namespace pinfold {
namespace {

/// Collects the reasons against a section.
class Inspection {
public:
    explicit Inspection(const Section& section) : section_(section) {
        for (const SectionConductor& c : section.conductors) metal_.push_back(shape_of(c));
        for (const SectionDielectric& d : section.dielectrics) film_.push_back(shape_of(d));
    }

    void inspect() {
        require_counts();
        require_sizes();
        if (!findings_.empty()) throw InputError(std::move(findings_));
        require_planes();
        require_gaps();
        require_resolved();
        require_apart_dielectrics();
        require_bedding();
        if (!findings_.empty()) throw InputError(std::move(findings_));
    }

private:
    void refuse(const char* rule, std::string text, const Mark& at, std::vector<Note> notes = {}) {
        complain(findings_, rule, std::move(text), at, std::move(notes));
    }

    void require_counts() {
        const std::size_t most = most_in_section;
        if (section_.conductors.empty()) {
            refuse("section-count", "a section needs at least one conductor", section_.at);
        }
        if (section_.conductors.size() > most || section_.dielectrics.size() > most) {
            refuse("section-count",
                   fmt::format("a section may have {} conductors and as many dielectrics", most),
                   section_.at);
        }
        if (section_.planes.size() > 2) {
            refuse("section-count", "a section has at most two planes", section_.planes[2].at);
        }
    }

    static bool near(double mm) { return std::abs(mm) <= farthest_mm; }
    static bool sized(double mm) {
        // A size is a difference of places here and there: its last digits are not its own.
        return mm >= least_size_mm * (1.0 - 1e-3) && mm <= farthest_mm * (2.0 + 1e-9);
    }

    void require_sizes() {
        for (const SectionConductor& c : section_.conductors) {
            const bool is_sized = c.round() ? sized(c.diameter.value())
                                            : sized(c.width.value()) && sized(c.thickness.value());
            if (is_sized && near(c.x.value()) && near(c.y.value())) continue;
            refuse("section-size",
                   fmt::format("conductor '{}' must have a place within {:g} mm and a size from "
                               "{:g} mm up",
                               c.name, farthest_mm, least_size_mm),
                   c.at);
        }
        for (std::size_t i = 0; i < film_.size(); ++i) {
            const SectionDielectric& d = section_.dielectrics[i];
            const SectionShape& shape = film_[i];
            if (!sized(shape.x_max - shape.x_min) || !sized(shape.y_max - shape.y_min)) {
                refuse("section-size",
                       fmt::format("a dielectric must have x-max above x-min and y-max above "
                                   "y-min, by {:g} mm at least",
                                   least_size_mm),
                       d.at);
            } else if (!near(shape.x_min) || !near(shape.x_max) || !near(shape.y_min) ||
                       !near(shape.y_max)) {
                refuse("section-size",
                       fmt::format("a dielectric must lie within {:g} mm", farthest_mm), d.at);
            }
            if (!(d.er >= 1.0) || !std::isfinite(d.er) || !(d.loss >= 0.0) || !(d.loss <= 1.0)) {
                refuse("section-size", "er must be at least 1, and the loss from 0 to 1", d.at);
            }
        }
        for (const SectionPlane& plane : section_.planes) {
            if (near(plane.y.value())) continue;
            refuse("section-size", fmt::format("a plane must lie within {:g} mm", farthest_mm),
                   plane.at);
        }
    }

    /// Metal keeps clear of the planes, and everything lies on one side of one, between two.
    void require_planes() {
        if (section_.planes.empty()) return;
        const auto [low, high] = std::ranges::minmax(section_.planes, {}, &SectionPlane::y);
        if (section_.planes.size() == 2 && high.y.value() - low.y.value() <= touching_mm) {
            return refuse("section-plane", "the two planes are one", section_.planes[1].at);
        }
        const bool below = section_.planes.size() == 1 && section_.conductors[0].y < low.y;
        const double floor = below ? -HUGE_VAL : low.y.value();
        const double ceiling = section_.planes.size() == 2 ? high.y.value()
                               : below                     ? low.y.value()
                                                           : HUGE_VAL;
        const char* const wanted =
            section_.planes.size() == 2 ? "between the planes" : "on one side of the plane";
        for (std::size_t i = 0; i < metal_.size(); ++i) {
            const double gap = std::min(metal_[i].y_min - floor, ceiling - metal_[i].y_max);
            const double radius = metal_[i].radius();  // of a wire and of its image
            if (gap > touching_mm && metal_[i].round &&
                bipolar_of(radius, radius, 2.0 * (radius + gap)) < least_bipolar) {
                refuse("section-gap",
                       fmt::format("between '{}' and a plane there is so little beside its size "
                                   "that the field is not resolved; leave more",
                                   section_.conductors[i].name),
                       section_.conductors[i].at);
            }
            if (gap > touching_mm) continue;
            const SectionConductor& c = section_.conductors[i];
            refuse("section-plane",
                   fmt::format("conductor '{}' touches a plane or lies beyond it; all conductors "
                               "must lie clear {}",
                               c.name, wanted),
                   c.at);
        }
        for (std::size_t i = 0; i < film_.size(); ++i) {
            const double edge = film_[i].round ? -touching_mm : touching_mm;
            if (film_[i].y_min >= floor - edge && film_[i].y_max <= ceiling + edge) continue;
            refuse("section-plane",
                   fmt::format("a dielectric reaches through a plane; end it there: all of it must "
                               "lie {}{}",
                               wanted, film_[i].round ? ", clear of them" : ""),
                   section_.dielectrics[i].at);
        }
    }

    /// The shapes in order from left to right, so that only neighbours are compared.
    template <class Judge>
    static void each_close_pair(const std::vector<SectionShape>& shapes, const Judge& judge) {
        std::vector<std::size_t> order(shapes.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        std::ranges::stable_sort(order, {}, [&](std::size_t i) { return shapes[i].x_min; });
        for (std::size_t i = 0; i < order.size(); ++i) {
            for (std::size_t j = i + 1; j < order.size(); ++j) {
                if (shapes[order[j]].x_min > shapes[order[i]].x_max + touching_mm) break;
                judge(std::min(order[i], order[j]), std::max(order[i], order[j]));
            }
        }
    }

    /// Of a wire and what is beside it; of a straight wall, of the wire and its image in that.
    static double between(const SectionShape& wire, const SectionShape& other) {
        if (!other.round) {
            const double apart = 2.0 * (gap_between(wire, other) + wire.radius());
            return bipolar_of(wire.radius(), wire.radius(), apart);
        }
        return bipolar_of(wire.radius(), other.radius(), std::abs(wire.centre() - other.centre()));
    }

    /// Wires a hair from other metal take more modes than are solved.
    void require_resolved() {
        for (std::size_t i = 0; i < metal_.size(); ++i) {
            for (std::size_t j = 0; j < metal_.size() && metal_[i].round; ++j) {
                if (i == j || gap_between(metal_[i], metal_[j]) <= touching_mm) continue;
                if (between(metal_[i], metal_[j]) >= least_bipolar) continue;
                if (metal_[j].round && j < i && between(metal_[j], metal_[i]) < least_bipolar)
                    continue;  // told already
                refuse("section-gap",
                       fmt::format("between '{}' and '{}' there is so little beside their size "
                                   "that the field is not resolved; leave more",
                                   section_.conductors[i].name, section_.conductors[j].name),
                       section_.conductors[i].at,
                       {{section_.conductors[j].at, "the other is here"}});
            }
        }
    }

    void require_gaps() {
        each_close_pair(metal_, [&](std::size_t i, std::size_t j) {
            const double gap = gap_between(metal_[i], metal_[j]);
            if (gap > touching_mm) return;
            const SectionConductor& one = section_.conductors[i];
            const SectionConductor& other = section_.conductors[j];
            refuse("section-overlap",
                   fmt::format("conductors '{}' and '{}' {}; leave a gap between them", one.name,
                               other.name, gap < -touching_mm ? "overlap" : "touch"),
                   other.at, {{one.at, "the other is here"}});
        });
    }

    void require_apart_dielectrics() {
        each_close_pair(film_, [&](std::size_t i, std::size_t j) {
            if (gap_between(film_[i], film_[j]) >= -touching_mm) return;
            refuse("section-overlap",
                   "two dielectrics overlap; every place must be in one of them at most",
                   section_.dielectrics[j].at, {{section_.dielectrics[i].at, "the other is here"}});
        });
    }

    /// A conductor lies clear of every dielectric, or in one, or is covered by several.
    void require_bedding() {
        for (std::size_t i = 0; i < metal_.size(); ++i) {
            double covered = 0.0;
            bool whole = false;
            bool crossing = false;
            Mark edge;
            double er = 0.0, loss = 0.0;
            for (std::size_t k = 0; k < film_.size(); ++k) {
                if (gap_between(metal_[i], film_[k]) >= -touching_mm) continue;
                const SectionDielectric& d = section_.dielectrics[k];
                if (film_[k].round && within(film_[k], metal_[i])) {
                    refuse("section-bedding",
                           fmt::format("conductor '{}' leaves nothing of a dielectric; one round "
                                       "it must be wider",
                                       section_.conductors[i].name),
                           d.at, {{section_.conductors[i].at, "the conductor is here"}});
                    whole = true;  // told already
                }
                whole = whole || within(metal_[i], film_[k]);
                crossing = crossing || film_[k].round ||
                           (covered > 0.0 && metal_[i].round && (er != d.er || loss != d.loss));
                covered += shared_area(metal_[i], film_[k]);
                er = d.er, loss = d.loss;
                edge = d.at;
            }
            if (whole || covered == 0.0) continue;
            if (!crossing && covered >= area_of(metal_[i]) * (1.0 - 1e-6)) continue;
            refuse(
                "section-bedding",
                fmt::format("conductor '{}' crosses the edge of a dielectric; it must lie wholly "
                            "inside, on its surface, or clear of it",
                            section_.conductors[i].name),
                section_.conductors[i].at, {{edge, "the dielectric is here"}});
        }
    }

    const Section& section_;
    std::vector<SectionShape> metal_;
    std::vector<SectionShape> film_;
    Findings findings_;
};

}  // namespace

std::vector<std::size_t> signals_of(const Section& section) {
    std::vector<std::size_t> signals;
    for (std::size_t i = 0; i < section.conductors.size(); ++i) {
        if (std::ranges::find(section.ground, i) == section.ground.end()) signals.push_back(i);
    }
    return signals;
}

std::vector<std::size_t> singles_of(const Section& section) {
    std::vector<std::size_t> singles = signals_of(section);
    std::erase_if(singles, [&](std::size_t i) {
        return std::ranges::any_of(section.pairs, [i](const SectionPair& pair) {
            return pair.plus == i || pair.minus == i;
        });
    });
    return singles;
}

void require_solvable(const Section& section) { Inspection(section).inspect(); }

void require_line(const Section& section) {
    Findings findings;
    if (section.planes.empty() && section.ground.empty()) {
        complain(findings, "section-ground",
                 "nothing is ground: name at least one conductor in 'ground', or a plane",
                 section.at);
    }
    const auto grounded = [&](std::size_t i) {
        return std::ranges::find(section.ground, i) != section.ground.end();
    };
    if (signals_of(section).empty()) {
        complain(findings, "section-ground",
                 "every conductor is ground; at least one must carry a signal", section.at);
    }
    for (const SectionPair& pair : section.pairs) {
        if (pair.plus == pair.minus) {
            complain(findings, "section-pair", "a pair needs two different conductors", pair.at);
        }
        for (std::size_t i : {pair.plus, pair.minus}) {
            if (!grounded(i)) continue;
            complain(findings, "section-pair",
                     fmt::format("'{}' is ground and cannot be half of a pair",
                                 section.conductors[i].name),
                     pair.at);
            break;
        }
    }
    if (!findings.empty()) throw InputError(std::move(findings));
}

}  // namespace pinfold
