using System.Globalization;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The ways in which the fields of forms say back how they understood a text. A Draft reads the same text in the same way.</summary>
internal static class Reads
{
    public static Func<string, ReadBack> Date(TimeProvider clock) => text => DateText.Read(text, DateOnly.FromDateTime(clock.GetLocalNow().DateTime)) switch
    {
        null => new($"not read as a date; write {DateText.Forms}", Understood: false),
        { Wrong: { } wrong } => new(wrong, Understood: false),
        { } date => new(date.Said),
    };

    public static Func<string, ReadBack> Moment(TimeProvider clock) => text => MomentText.Read(text, clock) is { } moment
        ? new(moment.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture))
        : new("not read as a day and time; write now, 15:30, yesterday 9:05 or 14.10.2022 15:30", Understood: false);

    public static Func<string, ReadBack> Number() => text => NumberText.IsUnknown(text) ? Left
        : NumberText.TryRead(text, thousands: false, out var value) ? new(Figures.Plain(value)) : NoNumber(text);

    /// <param name="unit">Of a number without one; null: it has to be written.</param>
    public static Func<string, ReadBack> Measure(string? unit) => text => Of(text, unit, thousands: false);

    /// <summary>What an odometer shows: one comma or point before three digits parts thousands.</summary>
    public static Func<string, ReadBack> Odometer(string unit) => text => Of(text, unit, thousands: true);

    public static Func<string, ReadBack> Money(string currency) => text => Of(text, currency, thousands: true);

    private static ReadBack Left => new("not known; left empty");

    private static ReadBack Of(string text, string? unit, bool thousands) => NumberText.IsUnknown(text) ? Left
        : Draft.TryMeasure(text, unit, thousands) is { } measured ? new(Figures.Of(measured)) : NoNumber(text);

    private static ReadBack NoNumber(string text) => new($"not read as a number{NumberText.Doubt(text)}", Understood: false);
}
