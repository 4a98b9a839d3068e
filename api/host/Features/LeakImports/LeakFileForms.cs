using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Validation;
using Microsoft.AspNetCore.Mvc;

namespace FuelHistory.Host.Features.LeakImports;

/// <summary>How the file is to be read, as the address says it; fields of a form of the same names count where the address is silent.</summary>
public sealed record LeakFileQuery(
    [FromQuery(Name = "time")] string? Time,
    [FromQuery(Name = "value")] string? Value,
    [FromQuery(Name = "unit")] string? Unit,
    [FromQuery(Name = "timeUnit")] string? TimeUnit,
    [FromQuery(Name = "stop")] string? Stop,
    [FromQuery(Name = "decimal")] string? Decimal,
    [FromQuery(Name = "delimiter")] string? Delimiter,
    [FromQuery(Name = "header")] string? Header,
    [FromQuery(Name = "skip")] string? Skip,
    [FromQuery(Name = "confirmed")] string? Confirmed);

/// <summary>Nothing about the file is guessed: what is not said has one stated default.</summary>
internal static class LeakFileForms
{
    private const int LongestPreamble = 1000;

    private static readonly string[] Names = ["time", "value", "unit", "timeUnit", "stop", "decimal", "delimiter", "header", "skip", "confirmed"];

    /// <returns>The form, of use only without faults.</returns>
    public static (LeakFileForm Form, bool Confirmed) Read(Faults faults, LeakFileQuery query, IReadOnlyDictionary<string, string> fields, string unit)
    {
        foreach (var unknown in fields.Keys.Except(Names))
        {
            faults.Known(unknown, "field", unknown, Names);
        }

        string Said(string? inAddress, string name, string otherwise) => inAddress ?? fields.GetValueOrDefault(name) ?? otherwise;
        var header = Said(query.Header, "header", "true");
        var skip = Said(query.Skip, "skip", "0");
        var confirmed = Said(query.Confirmed, "confirmed", "false");
        LeakFileForm form = new(
            Said(query.Time, "time", "1"), Said(query.Value, "value", "2"), Said(query.Unit, "unit", unit), Said(query.TimeUnit, "timeUnit", "s"),
            query.Stop ?? fields.GetValueOrDefault("stop"), Said(query.Decimal, "decimal", "point"), Said(query.Delimiter, "delimiter", "comma"), header == "true",
            int.TryParse(skip, NumberStyles.None, CultureInfo.InvariantCulture, out var lines) ? lines : -1);
        faults.OneOf("header", header, "true", "false");
        faults.OneOf("confirmed", confirmed, "true", "false");
        faults.Within("skip", form.Skip, 0, LongestPreamble, " lines");
        faults.OneOf("timeUnit", form.TimeUnit, "s", "min", "h", "ms", "instant");
        faults.OneOf("decimal", form.Decimal, "point", "comma");
        faults.OneOf("delimiter", form.Delimiter, "comma", "semicolon", "tab");
        MeasuredRules.Fits(faults, "unit", form.Unit, Quantity.Pressure);
        if (form is { Decimal: "comma", Delimiter: "comma" })
        {
            faults.Add("decimal", Problems.Unsuitable, "A comma cannot both divide the columns and mark the decimals; say delimiter=semicolon or tab, or decimal=point.");
        }

        if (!form.Header)
        {
            Numbered(faults, "time", form.Time);
            Numbered(faults, "value", form.Value);
        }

        return (form, confirmed == "true");
    }

    /// <summary>The place of a column given by its number, from 0; null: it is given by its heading.</summary>
    public static int? Place(string column) =>
        int.TryParse(column, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= 1 ? number - 1 : null;

    private static void Numbered(Faults faults, string name, string column)
    {
        if (Place(column) is null)
        {
            faults.Add(name, Problems.Unsuitable, $"Without headings a column is named by its number from 1; {name} is \"{column}\".");
        }
    }
}
