using System.Globalization;
using FuelHistory.Contracts;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Validation;

internal static class MoneyRules
{
    public static void Currency(Faults faults, string pointer, string currency)
    {
        if (currency.Length != 3 || !currency.All(char.IsAsciiLetterUpper))
        {
            faults.Add(pointer, Problems.Unknown, $"{Names.Field(pointer)} \"{currency}\" is not a currency code; write three capital letters (EUR, GBP, USD, JPY).");
        }
    }

    public static void Amount(Faults faults, string pointer, decimal amount, string currency, decimal most)
    {
        if (amount < 0 || amount > most)
        {
            faults.Add(pointer, Problems.OutOfRange, string.Create(CultureInfo.InvariantCulture, $"{Names.Field(pointer)} is {amount}; expected 0 to {most}."));
        }
        else if (!Amounts.IsWhole(amount, currency))
        {
            faults.Add(pointer, Problems.OutOfRange, string.Create(CultureInfo.InvariantCulture, $"{Names.Field(pointer)} {amount} has more decimals than {currency} has ({Amounts.Decimals(currency)}). Round it."));
        }
    }
}
