#include "design/read_budget.hpp"

#include <fmt/format.h>

#include <map>

#include "design/budget_origins.hpp"

namespace pinfold {
namespace {

const Words<StageKind>& kind_words() {
    static const Words<StageKind> words{{"boost", StageKind::boost},
                                        {"buck", StageKind::buck},
                                        {"buck-boost", StageKind::buck_boost}};
    return words;
}

/// Reads batteries, stages and loads; what each takes its power from is found afterwards.
class BudgetReader {
public:
    BudgetReader(const NameIndex& names, ReaderDesk& desk) : names_(names), desk_(desk) {}

    void read(const Yaml& yaml) {
        Fields fields(yaml, desk_.findings);
        fields.require("batteries");
        for (const Yaml::Entry& entry : fields.map("batteries")) read_battery(entry);
        for (const Yaml::Entry& entry : fields.map("stages")) read_stage(entry);
        for (const Yaml::Entry& entry : fields.map("loads")) read_load(entry);
        fields.done();
        if (is_sound_ && resolve_origins(budget_, written_, desk_)) {
            desk_.design.budget = std::move(budget_);
        }
    }

private:
    void fault(const char* rule, std::string text, const Mark& at, std::vector<Note> notes = {}) {
        is_sound_ = false;
        complain(desk_.findings, rule, std::move(text), at, std::move(notes));
    }

    /// Batteries, stages and loads share one set of names.
    void claim(const Yaml::Entry& entry) {
        require_plain_name(entry.key, entry.at, desk_.findings);
        const auto [twin, is_new] = claimed_.try_emplace(entry.key, entry.at);
        if (is_new) return;
        fault("name-twice", fmt::format("'{}' is named twice in this budget", entry.key), entry.at,
              {{twin->second, "first here"}});
    }

    void read_battery(const Yaml::Entry& entry) {
        claim(entry);
        Fields fields(entry.value, desk_.findings);
        Battery battery;
        battery.name = entry.key;
        battery.at = entry.at;
        const auto energy = fields.quantity<WattHours>("energy");
        const auto full = fields.quantity<Volts>("full");
        const auto empty = fields.quantity<Volts>("empty");
        const auto usable = share(fields, "usable", Percent(100.0));
        battery.resistance = fields.maybe<Ohms>("resistance").value_or(Ohms{});
        battery.current = fields.maybe<Amperes>("current");
        const Mark at_empty = fields.at("empty"), at_energy = fields.at("energy");
        fields.done();
        if (!energy || !full || !empty || !usable) {
            is_sound_ = false;
            return;
        }
        if (*full < *empty) {
            fault("budget-window",
                  fmt::format("the battery's window is upside down: empty at {:.6g} V, full at "
                              "{:.6g} V",
                              empty->value(), full->value()),
                  at_empty);
        }
        constexpr WattHours most(100'000.0);  // a car's; no compact equipment comes near
        if (*energy > most) {
            fault("budget-energy", fmt::format("a battery holds {:g} Wh at most", most.value()),
                  at_energy);
        }
        battery.energy = *energy;
        battery.full = *full;
        battery.empty = *empty;
        battery.usable = *usable;
        budget_.batteries.push_back(std::move(battery));
    }

    /// A share of up to 100 %; the fallback if the field is missing.
    std::optional<Percent> share(Fields& fields, const char* key, Percent fallback) {
        if (!fields.has(key)) return fallback;
        const auto percent = fields.maybe<Percent>(key);
        if (!percent) return std::nullopt;
        if (percent->value() <= 100.0) return percent;
        fault("budget-share",
              fmt::format("'{}' must be at most 100 %, not {:.6g} %", key, percent->value()),
              fields.at(key));
        return std::nullopt;
    }

    void read_stage(const Yaml::Entry& entry) {
        claim(entry);
        Fields fields(entry.value, desk_.findings);
        Stage stage;
        stage.name = entry.key;
        stage.at = entry.at;
        const auto kind = fields.word<StageKind>("kind", kind_words());
        written_.of_stages.push_back(read_origin(fields));
        const auto output = fields.quantity<Volts>("output");
        fields.require("efficiency");
        const auto efficiency = share(fields, "efficiency", Percent(100.0));
        stage.input_current = fields.maybe<Amperes>("input-current");
        stage.output_current = fields.maybe<Amperes>("output-current");
        stage.input_power = fields.maybe<Watts>("input-power");
        stage.output_power = fields.maybe<Watts>("output-power");
        fields.done();
        if (!kind || !output || !efficiency) is_sound_ = false;
        stage.kind = kind.value_or(StageKind::buck_boost);
        stage.output = output.value_or(Volts(1.0));
        stage.efficiency = efficiency.value_or(Percent(100.0));
        budget_.stages.push_back(std::move(stage));
    }

    void read_load(const Yaml::Entry& entry) {
        claim(entry);
        Fields fields(entry.value, desk_.findings);
        BudgetLoad load;
        load.name = entry.key;
        load.at = entry.at;
        written_.of_loads.push_back(read_origin(fields));
        load.idle = fields.maybe<Watts>("idle").value_or(Watts{});
        const auto typical = fields.quantity<Watts>("typical");
        const auto peak = fields.quantity<Watts>("peak");
        const Mark at_typical = fields.at("typical");
        fields.done();
        if (!typical || !peak) {
            is_sound_ = false;
        } else if (load.idle > *typical || *typical > *peak) {
            fault("budget-order",
                  fmt::format("idle, typical and peak must not fall: {:.6g}, {:.6g}, {:.6g} W",
                              load.idle.value(), typical->value(), peak->value()),
                  at_typical);
        }
        load.typical = typical.value_or(Watts(1.0));
        load.peak = peak.value_or(Watts(1.0));
        budget_.loads.push_back(std::move(load));
    }

    WrittenOrigin read_origin(Fields& fields) {
        WrittenOrigin written;
        written.from = fields.text("from");
        written.from_at = fields.at("from");
        written.carry_at = fields.at("at");
        written.supply = fields.text_or("supply", {});
        if (fields.has("at")) {
            written.port =
                names_.find_port(fields.text("at"), written.carry_at, NameIndex::Among::boards);
            if (!written.port) is_sound_ = false;
        } else if (!written.supply.empty()) {
            fault("budget-at",
                  "'supply' says which supply of the port 'at' is meant; 'at' is missing",
                  fields.at("supply"));
        }
        if (written.from.empty()) is_sound_ = false;
        return written;
    }

    const NameIndex& names_;
    ReaderDesk& desk_;
    Budget budget_;
    bool is_sound_ = true;
    std::map<std::string, Mark> claimed_;
    WrittenOrigins written_;
};

}  // namespace

void read_budget(const Yaml& yaml, const NameIndex& names, ReaderDesk& desk) {
    BudgetReader(names, desk).read(yaml);
}

}  // namespace pinfold
