using FuelHistory.Contracts;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Instruments;

public sealed class InstrumentRules
{
    // the coarsest class of EN 837-1 is 4; worn shop gauges are worse, but beyond this a figure is a slip
    private const double CoarsestClass = 20;
    private const double LargestSpan = 1e6;

    public Refused? Check(Step step, NewInstrument input)
    {
        var faults = step.Faults;
        faults.Text("/name", input.Name, Lengths.Name, required: true);
        faults.Text("/note", input.Note, Lengths.Note);
        if (faults.Known("/quantity", "quantity", input.Quantity, Quantity.All.Select(q => q.Id)))
        {
            MeasuredRules.Fits(faults, "/unit", input.Unit, Quantity.Find(input.Quantity)!);
        }

        faults.Above("/span", input.Span, LargestSpan, " " + input.Unit);
        faults.Above("/classPercent", input.ClassPercent, CoarsestClass, " %");
        faults.Above("/resolution", input.Resolution, input.Span ?? LargestSpan, " " + input.Unit);
        faults.Within("/percentOfReading", input.PercentOfReading, 0, 50, " %");
        faults.Within("/digits", input.Digits, 0, input.Span ?? LargestSpan, " " + input.Unit);
        if (input.ClassPercent is not null && input.Span is null)
        {
            faults.Required("/span", "span is missing; the class is a share of it (10 for a gauge from 0 to 10 bar).");
        }

        step.Days.Past(faults, "/lastChecked", input.LastChecked);
        return null;
    }
}
