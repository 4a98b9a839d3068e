using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Readings;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;
using LimitPoint = FuelHistory.Contracts.LimitPoint;

namespace FuelHistory.Host.Features.Limits;

public sealed class LimitRules(LimitStore store)
{
    private const double LongestMinutes = 24 * 60;

    /// <param name="adopted">Taken from the library: it may stand beside an own one, which goes before it.</param>
    public Refused? Check(Step step, NewLimit input, bool adopted = false)
    {
        var faults = step.Faults;
        faults.Text("/source", input.Source, Lengths.Reason, required: true);
        faults.Text("/note", input.Note, Lengths.Note);
        var car = step.Car!;
        if (!faults.Known("/check", "check", input.Check, car.Model.Checks.Select(c => c.Id)))
        {
            return null;
        }

        var check = car.Check(input.Check)!;
        if (check.Kind is not (CheckKind.Measurement or CheckKind.LeakDown))
        {
            faults.Add("/check", Problems.Unsuitable, $"\"{check.Id}\" is not measured, so it has no limits; name a check that is.");
            return null;
        }

        if (!adopted)
        {
            Other(step, check.Id);
        }

        if (!MeasuredRules.Fits(faults, "/unit", input.Unit, ReadingRules.QuantityOf(check)))
        {
            return null;
        }

        if (check.Kind == CheckKind.LeakDown)
        {
            LeakDown(faults, input);
        }
        else
        {
            Measurement(faults, input, check);
        }

        return null;
    }

    private void Other(Step step, string check)
    {
        var other = store.OfVehicle(step.Session.Connection, step.Car!.Vehicle.Entry.Id)
            .FirstOrDefault(l => l.Check == check && l.Trust == LimitWords.Own && l.Entry.VoidReason is null && l.Entry.Id != step.Present?.EntryId);
        if (other is not null)
        {
            step.Faults.Add("/check", Problems.Unsuitable, $"This car has a limit for \"{check}\" already (entry {other.Entry.Id}); correct that one instead.");
        }
    }

    private static void LeakDown(Faults faults, NewLimit input)
    {
        Absent(faults, "/low", input.Low, "a leak-down has points (after so many minutes at least so much)");
        Absent(faults, "/high", input.High, "a leak-down has points (after so many minutes at least so much)");
        faults.Above("/from", input.From, double.MaxValue, " " + input.Unit);
        if (input.Points is not { Count: > 0 } points)
        {
            faults.Required("/points", "points is missing; a leak-down needs at least one, such as { \"minutes\": 10, \"low\": 1.7 }.");
            return;
        }

        for (var i = 0; i < points.Count; i++)
        {
            var (here, point) = ($"/points/{i}", points[i]);
            Absent(faults, here + "/at", point.At, "a leak-down has minutes");
            Absent(faults, here + "/high", point.High, "only the lowest allowed pressure counts");
            Present(faults, here + "/minutes", point.Minutes);
            Present(faults, here + "/low", point.Low);
            faults.Above(here + "/minutes", point.Minutes, LongestMinutes, " min");
            faults.Above(here + "/low", point.Low, input.From ?? double.MaxValue, " " + input.Unit);
            if (i > 0 && (point.Minutes <= points[i - 1].Minutes || point.Low > points[i - 1].Low))
            {
                faults.Add(here, Problems.OutOfRange, "Points must be in the order of time, with pressures that do not rise.");
            }
        }
    }

    private static void Measurement(Faults faults, NewLimit input, Check check)
    {
        var quantity = ReadingRules.QuantityOf(check);
        var (lowest, highest) = ReadingRules.Range(check);
        var unit = ReadingRules.UnitOf(check);
        Absent(faults, "/from", input.From, "only a leak-down starts from a hold pressure");
        Span(faults, "", input.Low, input.High);
        foreach (var (here, value) in Figures(input))
        {
            var there = value is { } v ? quantity.Convert(v, input.Unit, unit) : lowest;
            if (there < lowest || there > highest)
            {
                faults.Add(here, Problems.OutOfRange, $"{Names.Field(here)} is {Names.Number(value!.Value)} {input.Unit}; this check shows {Names.Number(lowest)} to {Names.Number(highest)} {unit}. Check figure and unit.");
            }
        }

        Covariate(faults, input, check);
    }

    private static void Covariate(Faults faults, NewLimit input, Check check)
    {
        var points = input.Points ?? [];
        if (points.Count == 0 && input.Low is null && input.High is null)
        {
            faults.Required("/low", $"low and high are missing; give at least one{(check.Covariate is null ? "" : $", or points over the {check.Covariate.Title}")}.");
        }

        else if (!Sides(input.Low, input.High, points.Select(p => (p.Low, p.High))).Intersect(Sides(check.Limits?.Low, check.Limits?.High, (check.Limits?.Points ?? []).Select(p => (p.Low, p.High)))).Any())
        {
            var side = check.Limits?.High is null && (check.Limits?.Points ?? []).All(p => p.High is null) ? "low" : "high";
            faults.Add($"/{side}", Problems.Unsuitable, $"\"{check.Id}\" is judged by what it reads at {(side == "low" ? "least" : "most")}; give {side}.");
        }

        if (points.Count > 0 && check.Covariate is null)
        {
            faults.Add("/points", Problems.Unsuitable, $"\"{check.Id}\" does not depend on anything else; give low and high instead of points.");
            return;
        }

        for (var i = 0; i < points.Count; i++)
        {
            var here = $"/points/{i}";
            Absent(faults, here + "/minutes", points[i].Minutes, "only a leak-down has minutes");
            Present(faults, here + "/at", points[i].At);
            Span(faults, here, points[i].Low, points[i].High);
            if (points[i].Low is null && points[i].High is null)
            {
                faults.Required(here + "/low", $"Point {i + 1} has neither low nor high; give at least one.");
            }

            if (i > 0 && points[i].At <= points[i - 1].At)
            {
                faults.Add(here + "/at", Problems.OutOfRange, $"Points must be in the order of at; point {i + 1} does not follow point {i}.");
            }
        }
    }

    private static IEnumerable<string> Sides(double? low, double? high, IEnumerable<(double? Low, double? High)> points) =>
        points.Append((low, high)).SelectMany(p => new[] { p.Item1 is null ? null : "low", p.Item2 is null ? null : "high" }).OfType<string>().Distinct();

    private static IEnumerable<(string Pointer, double? Value)> Figures(NewLimit input) =>
        ((IEnumerable<(string, double?)>)[("/low", input.Low), ("/high", input.High)])
            .Concat((input.Points ?? []).SelectMany((p, i) => new (string, double?)[] { ($"/points/{i}/low", p.Low), ($"/points/{i}/high", p.High) }));

    private static void Span(Faults faults, string here, double? low, double? high)
    {
        if (low >= high)
        {
            faults.Add(here + "/high", Problems.OutOfRange, $"high {Names.Number(high!.Value)} is not above low {Names.Number(low!.Value)}.");
        }
    }

    private static void Absent(Faults faults, string pointer, double? value, string why)
    {
        if (value is not null)
        {
            faults.Add(pointer, Problems.Unsuitable, $"{Names.Field(pointer)} does not belong here: {why}. Leave it out.");
        }
    }

    private static void Present(Faults faults, string pointer, double? value)
    {
        if (value is null)
        {
            faults.Required(pointer, $"{Names.Field(pointer)} is missing.");
        }
    }
}
