using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The forms about what measuring rests on: limits, instruments, settings.</summary>
internal static class BenchForms
{
    public static Form Limit(FormData data, Save<NewLimit>? save = null)
    {
        PickField check = new("check", "Check", "Enter shows the list", data.Checks);
        TypedField unit = new("unit", "Unit", "of all the figures below", data.Unit("pressure") ?? "bar");
        TypedField source = new("source", "Source", "where the figures stand: from the manual, page 24-7"), low = new("low", "At least", "4.7", reads: Reads.Number()), high = new("high", "At most", "5.5", reads: Reads.Number());
        TypedField from = new("from", "Leak-down starts at", "only for a pressure over time: the pressure at the stop", reads: Reads.Number()), points = new("points", "Points", "after minutes at least: 10: 2.0; 20: 1.8   or at a condition: 20: 1.2..1.5; 30: 1.6..1.9");
        TypedField note = VehicleForms.Note();
        return new("Enter a limit of this car", [check, unit, low, high, from, points, source, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewLimit body = new(check.Id ?? "", unit.Value ?? "", source.Value ?? "", draft.Number(low), draft.Number(high), draft.Number(from), draft.LimitPoints(points), note.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? VehicleForms.Saved(data.Calls.Ask(api => api.AddLimit(data.Vehicle!.Entry.Id, body, ct)), entry => new($"Entered: limit for {check.Shown}", entry.Entry.Id)));
        });
    }

    public static Form Instrument(FormData data, Save<NewInstrument>? save = null)
    {
        TypedField name = new("name", "Name", "gauge in the red case");
        ChoiceField quantity = new("quantity", "Measures", "", ChoiceField.Words("pressure", "voltage", "current", "resistance", "volume", "time", "temperature", "distance", "speed", "ratio: share in percent"));
        TypedField unit = new("unit", "Unit", "of span, resolution and digits", "bar"), span = new("span", "Span", "gauges: what the scale ends at: 10", reads: Reads.Number()), cls = new("classPercent", "Class", "gauges: percent of the span, on the dial: 1.6", reads: Reads.Number());
        TypedField resolution = new("resolution", "Resolution", "the smallest step that can be read: 0.1", reads: Reads.Number()), percent = new("percentOfReading", "Percent of reading", "meters and vessels: 0.5", reads: Reads.Number());
        TypedField digits = new("digits", "Digits", "meters and vessels: the fixed part, in the unit", reads: Reads.Number()), check = new("lastChecked", "Last compared", "with a known good one: a year, a month or a day", reads: Reads.Date(data.Clock)), note = VehicleForms.Note();
        return new("Add an instrument", [name, quantity, unit, span, cls, resolution, percent, digits, check, note], _ =>
        {
            Draft draft = new(data.Clock);
            NewInstrument body = new(name.Value ?? "", quantity.Value, unit.Value ?? "", draft.Number(span), draft.Number(cls), draft.Number(resolution), draft.Number(percent), draft.Number(digits), draft.Day(check), note.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? VehicleForms.Saved(data.Calls.Ask(api => api.AddInstrument(body, ct)), entry => new($"Added: {entry.Name}", entry.Entry.Id)));
        });
    }

    /// <summary>Tools: all tools of all fault models, so that a list chosen once serves every car.</summary>
    public static Form Settings(FormData data, IReadOnlyList<NamedThing> tools)
    {
        var now = data.Settings;
        TypedField currency = new("currency", "Currency", "three letters: EUR", now?.Currency ?? ""), rate = new("labourRate", "Labour rate", "per hour, in the currency", now is null ? "" : Words.Figures.Plain((double)now.LabourRate), Reads.Number());
        ChoiceField all = new("allTools", "All tools at hand", "no: only those picked below count", ChoiceField.Words("yes", "no"), now?.ToolsAtHand is null ? "yes" : "no");
        PickField atHand = new("toolsAtHand", "Tools at hand", "Enter shows the list", tools, many: true);
        foreach (var tool in now?.ToolsAtHand ?? []) if (tools.Any(each => each.Id == tool)) atHand.Pick(tool);
        ChoiceField pressure = Unit("pressure", "bar", "psi", "kPa", "MPa", "kgf/cm2"), temperature = Unit("temperature", "°C", "°F"), distance = Unit("distance", "km", "mi");
        TypedField locale = new("locale", "Locale", "language and country: en, en-GB", now?.Locale ?? "");
        ChoiceField figures = new("figures", "Chances", "how they are said", ChoiceField.Words("words: in words (about one in three)", "percent: in percent (35 %)", "odds: as odds (1 to 2)"), now?.Figures);
        return new("Settings", [currency, rate, all, atHand, pressure, temperature, distance, locale, figures], _ =>
        {
            Draft draft = new(data.Clock);
            var labour = draft.Number(rate) ?? 0;
            Dictionary<string, string> units = new(now?.Units ?? new Dictionary<string, string>()) { ["pressure"] = pressure.Value, ["temperature"] = temperature.Value, ["distance"] = distance.Value };
            Settings body = new(currency.Value ?? "", (decimal)labour, all.Value is "yes" ? null : atHand.Ids, units, locale.Value ?? "", figures.Value);
            return new(draft.Faults, ct => VehicleForms.Saved(data.Calls.Ask(api => api.SetSettings(body, ct)), _ => new("Settings saved.")));
        });

        ChoiceField Unit(string quantity, params string[] units) =>
            new($"units/{quantity}", $"Unit of {quantity}", "", ChoiceField.Words(units), now is null ? null : now.Units.GetValueOrDefault(quantity));
    }
}
