using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>What else is known of a leak-down. Ambient and Fuel: temperatures at the stop.</summary>
internal sealed record LeakDetails(Measured? Ambient, Measured? Fuel, string? Session, string Showed, string? Note)
{
    public static LeakDetails None { get; } = new(null, null, null, "unknown", null);
}

/// <summary>The form about a leak-down; its readings are taken on its screen.</summary>
internal static class LeakForms
{
    /// <param name="temperature">Unit of a temperature without one.</param>
    /// <param name="keep">Takes what was filled in.</param>
    public static Form Details(TimeProvider clock, string temperature, LeakDetails was, Action<LeakDetails> keep)
    {
        TypedField ambient = new("ambient", "Air", $"temperature at the stop, such as 24 {temperature}", reads: Reads.Measure(temperature)), fuel = new("fuel", "Fuel", $"temperature at the stop, such as 31 {temperature}", reads: Reads.Measure(temperature));
        ChoiceField showed = new("showed", "Complaint showed", "whether an intermittent complaint showed that day", ChoiceField.Words("unknown: not known", "yes", "no"), was.Showed);
        TypedField session = new("session", "Session", "a name for findings taken together; empty: the day", was.Session ?? ""), note = VehicleForms.Note();
        Form form = new("About this leak-down", [ambient, fuel, showed, session, note], _ =>
        {
            Draft draft = new(clock);
            LeakDetails filled = new(draft.Measure(ambient, temperature), draft.Measure(fuel, temperature), session.Value, showed.Value, note.Value);
            return new(draft.Faults, _ =>
            {
                keep(filled);
                return Task.FromResult<Answer<Stored>>(new Got<Stored>(new Stored("Noted with this leak-down.")));
            });
        });
        return form.With("ambient", Prefilled.Text(was.Ambient)).With("fuel", Prefilled.Text(was.Fuel)).With("note", was.Note);
    }
}
